import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { ADVICE, TONE, adviceOf } from './advice.ts';
import { firstAidBlocks } from './first-aid.view.ts';
import { peopleFirst } from './hazard-order.ts';
import { doublesOf, settlingFeature, type Double } from './rule-out.ts';
import { sourcesLine } from './sources.view.ts';

/** How the card came to be shown. */
export type CardOccasion = {
  audience: MessageView['audience'];
  /** What the member typed, when it was not the name of the entry. */
  readAs?: { typed: string; others: readonly Critter[]; everyday?: true };
  /** Who pressed "Show everyone". */
  shownBy?: string;
};

/** At most this many look-alikes are told apart on the card itself; each has its button all the same. */
const MOST_TOLD_APART = 3;

/**
 * The card of a critter. Its first line is `<name> — <advice>`; what can hurt people stands above what the
 * tank needs when it is grave, and is never folded away.
 */
export function cardView(base: KnowledgeBase, critter: Critter, occasion: CardOccasion): MessageView {
  const doubles = doublesOf(base, critter);
  const people = peopleBlocks(base, critter);
  const first = peopleFirst(critter);
  return {
    audience: occasion.audience,
    tone: TONE[critter.verdict],
    blocks: [
      text(md`## ${critter.name} — ${adviceOf(critter)}`),
      ...readAsBlocks(occasion),
      ...(first ? [...people, { kind: 'rule' } satisfies Block] : []),
      text(md`${critter.what} ${critter.does}`),
      text(md`${critter.matters}`),
      ...(critter.depends ? [text(md`**It depends.** ${critter.depends}`)] : []),
      text(md`**How to know it.** ${critter.know}`, 3),
      ...ruleOutBlocks(doubles),
      text(md`**What to do.** ${critter.now}`),
      text(md`**When to worry.** ${critter.worry}`, 1),
      ...(first ? [] : people),
      text(sourcesLine(base, critter), 4),
      text(md`-# entry ${critter.id}`),
      { kind: 'buttons', buttons: buttonsOf(critter, doubles, occasion) },
    ],
    foldedNotice: md`-# Shortened to fit. Press Whole entry for the rest.`,
  };
}

function readAsBlocks({ readAs, shownBy }: CardOccasion): Block[] {
  const lines: Markdown[] = [];
  if (shownBy) lines.push(md`-# Shown to everyone by ${shownBy}`);
  if (readAs) {
    lines.push(
      readAs.everyday
        ? md`You wrote “${readAs.typed}”; I take it for this one.`
        : md`You wrote “${readAs.typed}”; this is the nearest name I know. If you meant something else, tell me another name.`,
    );
    if (readAs.others.length > 0)
      lines.push(
        md`Also near: ${joined(
          readAs.others.map((other) => md`${other.name} (${adviceOf(other)})`),
          ', ',
        )}.`,
      );
  }
  return lines.length > 0 ? [text(joined(lines))] : [];
}

function peopleBlocks(base: KnowledgeBase, critter: Critter): Block[] {
  return [...(critter.caution ? [text(md`**For people.** ${critter.caution}`)] : []), ...firstAidBlocks(base, critter)];
}

function ruleOutBlocks(doubles: readonly Double[]): Block[] {
  const telling = doubles.filter(({ changesAdvice }) => changesAdvice);
  if (telling.length === 0) return [];
  return [
    text(md`**Rule out first**`),
    ...telling.slice(0, MOST_TOLD_APART).map((double, at) => text(ruleOutText(double), at < 2 ? 0 : 2)),
  ];
}

/** One look-alike: what it would show, what this one shows, and how to look safely. */
export function ruleOutText(double: Double): Markdown {
  const { other, otherIsDanger, features } = double;
  const settling = settlingFeature(double);
  const shown = settling ?? features[0];
  if (!shown) return md`- **${other.name}** (${ADVICE[other.verdict]}).`;
  const told = md`- **${other.name}** (${ADVICE[other.verdict]}). ${shown.feature}: ${lower(shown.theirs)} (this one: ${lower(shown.mine)}). ${shown.check}`;
  return otherIsDanger && !settling
    ? md`${told} Nothing you can see rules it out for certain: go by its cautions until somebody who knows it has seen a photo.`
    : told;
}

function buttonsOf(critter: Critter, doubles: readonly Double[], occasion: CardOccasion): ButtonView[] {
  return [
    ...doubles.map(({ other }): ButtonView => ({
      label: `Compare with ${other.name}`,
      act: 'compare',
      args: [critter.id, other.id],
    })),
    ...(critter.humanHazards.length > 0
      ? [{ label: 'First aid', act: 'first-aid', args: [critter.id], style: 'danger' } satisfies ButtonView]
      : []),
    { label: 'Whole entry', act: 'entry', args: [critter.id] },
    ...(occasion.audience === 'member'
      ? [{ label: 'Show everyone', act: 'show-card', args: [critter.id], style: 'primary' } satisfies ButtonView]
      : []),
  ];
}

const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

/** Lower-cases a phrase's first letter so that it can stand inside a sentence. */
const lower = (phrase: string) =>
  (/^[A-Z][a-z ]/.test(phrase) ? phrase.charAt(0).toLowerCase() + phrase.slice(1) : phrase).replace(/\.$/, '');
