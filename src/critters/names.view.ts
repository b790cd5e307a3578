import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { AmbiguousName } from '../knowledge/ambiguous-name.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { crittersAnswering, isGrave } from '../knowledge/look-up.ts';
import { adviceOf } from './advice.ts';

const text = (markdown: Markdown): Block => ({ kind: 'text', text: markdown });

const HANDS_OUT = md`**Until you know: hands out of the water, nothing scraped or boiled, a photo through the glass.** One of these can hurt people.`;
const HURRY = md`**One of these kills fast.** If animals look ill or breathe hard, ask an experienced keeper or a fish vet today.`;

/** What to say before anybody knows which of several animals it is. */
function untilKnown(critters: readonly Critter[]): Block[] {
  const grave = critters.filter(isGrave);
  if (grave.some(({ humanHazards }) => humanHazards.length > 0)) return [text(HANDS_OUT)];
  return grave.length > 0 ? [text(HURRY)] : [];
}

const NEXT_STEP = md`Not it? Try another name, or put a photo in this channel: white light, from the side, something beside it for size, and where it sits.`;

/** A name that is not in the base: said plainly, with the nearest three and the next step. */
export function notThereView(
  typed: string,
  nearest: readonly Critter[],
  audience: MessageView['audience'],
): MessageView {
  return {
    audience,
    tone: nearest.some(isGrave) ? 'urgent' : 'plain',
    blocks: [
      text(md`## I have no entry called “${shortened(typed)}”`),
      ...untilKnown(nearest),
      ...(nearest.length > 0
        ? [
            text(
              joined([
                md`The nearest names I know:`,
                ...nearest.map((critter) => md`- **${critter.name}** (${adviceOf(critter)})`),
              ]),
            ),
          ]
        : []),
      text(NEXT_STEP),
      ...(nearest.length > 0 ? [{ kind: 'buttons', buttons: nearest.map(cardButton) } satisfies Block] : []),
    ],
  };
}

/** A name that means several animals: its safety line, its one question, and a button for each answer. */
export function questionView(
  base: KnowledgeBase,
  question: AmbiguousName,
  typed: string,
  audience: MessageView['audience'],
): MessageView {
  const critters = question.answers.flatMap((answer) => {
    const critter = 'critter' in answer ? base.critters.get(answer.critter) : undefined;
    return critter ? [{ says: answer.says, critter }] : [];
  });
  return {
    audience,
    tone: question.safety ? 'urgent' : 'plain',
    blocks: [
      text(md`## “${shortened(typed)}” is a name for several things`),
      ...(question.safety ? [text(md`**${question.safety}**`)] : []),
      text(md`${question.question}`),
      text(joined(question.answers.flatMap((answer) => answerLine(base, answer)))),
      {
        kind: 'buttons',
        buttons: [
          ...critters.map(({ says, critter }): ButtonView => ({ label: says, act: 'card', args: [critter.id] })),
          { label: "None of these, or I can't see", act: 'cannot-tell', args: [question.id] },
        ],
      },
    ],
  };
}

/** One answer as a line. A coral has no card, so its line is all there is. */
function answerLine(base: KnowledgeBase, answer: AmbiguousName['answers'][number]): Markdown[] {
  if ('coral' in answer) {
    const coral = base.corals.get(answer.coral);
    return coral ? [md`- ${answer.says}: **${coral.name}** (coral)`] : [];
  }
  const critter = base.critters.get(answer.critter);
  return critter ? [md`- ${answer.says}: **${critter.name}** (${adviceOf(critter)})`] : [];
}

/** The answer to "I can't see": the careful act until somebody has seen a photo. */
export function cannotTellView(base: KnowledgeBase, question: AmbiguousName): MessageView {
  const candidates = crittersAnswering(base, question);
  const grave = candidates.filter(isGrave);
  return {
    audience: 'member',
    tone: grave.length > 0 ? 'urgent' : 'watch',
    blocks: [
      text(md`## Can’t tell — isolate, photograph and ask`),
      ...(question.safety ? [text(md`**${question.safety}**`)] : []),
      ...grave.map((critter) =>
        text(md`It could be **${critter.name}** (${adviceOf(critter)}). ${critter.caution ?? critter.matters}`),
      ),
      text(
        md`Move nothing by hand. If it sits on a rock that comes out easily, lift the rock with tongs into a tub of tank water with a lid. Photograph it through the glass in white light, from the side, with something beside it for size, and show the photo here.`,
      ),
      ...(candidates.length > 0
        ? [{ kind: 'buttons', buttons: candidates.slice(0, 10).map(cardButton) } satisfies Block]
        : []),
    ],
  };
}

/** A button or a link to something that is no longer there. */
export function outOfDateView(): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## This button is out of date`),
      text(
        md`It belongs to an older message or to an entry that was renamed. Ask again with **/critter name** and use the fresh buttons.`,
      ),
    ],
  };
}

/** A private note in plain words. */
export function noteView(title: string, body: Markdown): MessageView {
  return { audience: 'member', tone: 'plain', blocks: [text(md`## ${title}`), text(body)] };
}

const cardButton = (critter: Critter): ButtonView => ({ label: critter.name, act: 'card', args: [critter.id] });

/** What a member typed, cut so that an answer stays readable on a phone. */
const shortened = (typed: string) => {
  const line = typed.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 59).toWellFormed()}…` : line;
};
