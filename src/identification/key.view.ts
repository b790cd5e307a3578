import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { Identified } from './identify.ts';
import { chanceInWords } from './in-words.ts';
import type { Question } from './questions.ts';
import type { Sighting } from './session.ts';
import { askClubButton } from './sighting-buttons.view.ts';

const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });
const MOST_LEFT = 12;
const WORTH_SAYING = 0.1;

/** One question of the key, with what is left to decide. The same message is edited from question to question. */
export function questionView(
  { id, answers }: Sighting,
  question: Question,
  identified: Identified,
  occasion: { audience: MessageView['audience']; replaces?: true; picture?: Extract<Block, { kind: 'picture' }> },
): MessageView {
  const sid = String(id);
  const step = String(answers.length);
  const { candidates } = identified.decision;
  const danger = candidates.find(
    ({ critter, probability }) => isGrave(critter) && critter.humanHazards.length > 0 && probability >= 0.05,
  );
  return {
    audience: occasion.audience,
    ...(occasion.replaces ? { replaces: true } : {}),
    tone: danger ? 'urgent' : 'plain',
    blocks: [
      text(md`## ${question.ask}`),
      ...(danger
        ? [text(md`**It may be ${danger.critter.name}: hands out of the water.** Look from outside only.`)]
        : []),
      text(md`-# Question ${answers.length + 1}. Look through the glass; nobody has to touch anything.`),
      ...(occasion.picture ? [occasion.picture] : []),
      ...(question.options.some(({ say }) => say.length > 40)
        ? [text(joined(question.options.map(({ say }, at) => md`${at + 1}. ${say}`)))]
        : []),
      { kind: 'buttons', buttons: optionButtons(sid, step, question) },
      { kind: 'buttons', buttons: controls(sid, step, answers.length) },
      ...(candidates.some(({ probability }) => probability >= WORTH_SAYING)
        ? [text(md`So far most likely: ${leadingText(identified)}.`, 1)]
        : []),
      text(md`-# Sighting ${id}`),
    ],
  };
}

function optionButtons(sid: string, step: string, question: Question): ButtonView[] {
  return question.options.map(({ say }, at) => ({
    label: say.length > 40 ? `${at + 1}. ${say.slice(0, 60)}` : say,
    act: 'answer',
    args: [sid, step, String(at)],
  }));
}

function controls(sid: string, step: string, answered: number): ButtonView[] {
  return [
    { label: 'Can’t see', act: 'answer', args: [sid, step, 'skip'], style: 'primary' },
    ...(answered > 0
      ? [
          { label: 'Back', act: 'back', args: [sid, step] },
          { label: 'Start over', act: 'over', args: [sid] },
        ]
      : []),
    { label: 'Show what is left', act: 'left', args: [sid] },
    { label: 'Stop here', act: 'result', args: [sid] },
  ];
}

const leadingText = ({ decision }: Identified) =>
  decision.candidates
    .filter(({ probability }) => probability >= WORTH_SAYING)
    .map(({ critter, probability }) => `${critter.name} (${chanceInWords(probability)})`)
    .join(', ') || 'nothing yet';

/** Everything that still could be, most probable first. Private. */
export function whatIsLeftView(
  sighting: Sighting,
  identified: Identified,
  critters: readonly { name: string; probability: number; advice: string }[],
): MessageView {
  const shown = critters.slice(0, MOST_LEFT);
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## What is left`),
      text(
        shown.length > 0
          ? joined(
              shown.map(
                ({ name, probability, advice }) => md`- **${name}**, ${chanceInWords(probability)} (${advice})`,
              ),
            )
          : md`Nothing I know fits well.`,
      ),
      text(md`Something I have no entry for: ${chanceInWords(identified.posterior.nothing)}.`),
      text(md`-# Sighting ${sighting.id}`),
      ...(sighting.guildId === null ? [] : [{ kind: 'buttons', buttons: [askClubButton(sighting)] } satisfies Block]),
    ],
  };
}
