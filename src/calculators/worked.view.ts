import {
  joined,
  md,
  mentionOf,
  type Block,
  type ButtonView,
  type Markdown,
  type MessageView,
} from '../discord/message-view.ts';

/** What a calculator found out, in the order in which a member reads it. Empty parts are left out. */
export type Worked = {
  audience: MessageView['audience'];
  tone?: MessageView['tone'];
  /** The answer itself: "9.0 g sodium hydrogencarbonate, over 2 days". */
  answer: Markdown;
  /** Whose tank it is, when it is not the asker's own; they are called once. */
  forMember?: { id: string; name: string };
  /** Help and cautions that come before all else, because somebody can be hurt tonight. */
  first?: readonly Markdown[];
  /** What the numbers were taken to mean, and what was assumed where nothing was given. */
  assumed?: readonly Markdown[];
  /** One or two lines that can be checked with pencil and paper. */
  byHand?: readonly Markdown[];
  /** How wrong the test kit and the volume make it. */
  range?: Markdown;
  /** How it is spread over days. */
  days?: readonly Markdown[];
  /** A chart of it. */
  picture?: Extract<Block, { kind: 'picture' }>;
  /** What else it changes in the water. */
  alsoChanges?: readonly Markdown[];
  /** What to test, and when. */
  test?: Markdown;
  /** Gloves, goggles, order and spacing, who else to ask. */
  cautions?: readonly Markdown[];
  /** Where the figures come from, and how far they can be trusted. */
  from?: Markdown;
  buttons?: readonly ButtonView[];
};

const list = (title: string, lines: readonly Markdown[] = [], fold = 0): Block[] =>
  lines.length === 0 ? [] : [text(joined([md`**${title}**`, ...lines]), fold)];
const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

/** Where a figure can hurt somebody or something, this line says whose decision it is. */
const ARITHMETIC = md`-# This is arithmetic from what you gave me, not an instruction. Check it before you pour.`;

/** A worked answer: the answer first, then everything that a careful keeper checks it by. */
export function workedView(worked: Worked): MessageView {
  const { audience, answer, forMember, picture, range, test, from, buttons = [] } = worked;
  return {
    audience,
    tone: worked.tone ?? 'plain',
    ...(forMember && audience === 'everyone' ? { calls: forMember.id } : {}),
    blocks: [
      text(md`## ${answer}`),
      ...(forMember ? [text(md`For ${mentionOf(forMember.id)}’s tank.`)] : []),
      ...(worked.first ?? []).map((line) => text(line)),
      ...list('Days', worked.days),
      ...(picture ? [picture] : []),
      ...(range ? [text(md`**Range.** ${range}`)] : []),
      ...list('Taken as', worked.assumed),
      ...list('By hand', worked.byHand, 1),
      ...list('Also changes', worked.alsoChanges, 2),
      ...(test ? [text(md`**Testing.** ${test}`)] : []),
      ...list('Mind', worked.cautions),
      ...(from ? [text(md`-# ${from}`, 3)] : []),
      text(ARITHMETIC),
      ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } satisfies Block] : []),
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}
