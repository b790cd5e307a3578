import type { Block, ButtonView, Markdown, MessageView } from '../discord/message-view.ts';
import { md } from '../discord/message-view.ts';

/** A private answer: a heading and its paragraphs; those that are null are left out. */
export function privately(
  heading: Markdown,
  paragraphs: readonly (Markdown | null)[],
  { tone = 'plain', buttons = [], blocks = [], replaces = false }: Partial<PrivateParts> = {},
): MessageView {
  const texts = paragraphs.filter((each) => each !== null && each.markdown !== '') as Markdown[];
  return {
    audience: 'member',
    tone,
    ...(replaces ? { replaces: true } : {}),
    blocks: [
      { kind: 'text', text: md`## ${heading}` },
      ...texts.map((text): Block => ({ kind: 'text', text })),
      ...blocks,
      ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } satisfies Block] : []),
    ],
    foldedNotice: md`-# Shortened to fit. **/tank chart** has one parameter at a time.`,
  };
}
type PrivateParts = {
  tone: MessageView['tone'];
  buttons: readonly ButtonView[];
  blocks: readonly Block[];
  replaces: boolean;
};

/** Takes one change back, as long as it is the last of its tank. */
export const undoButton = (changeId: number): ButtonView => ({
  label: 'Undo',
  act: 'tank-undo',
  args: [String(changeId)],
});
