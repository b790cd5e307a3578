import { md, mentionOf, type Block, type FormView, type Markdown, type MessageView } from '../discord/message-view.ts';
import { checkButton } from './kept-answer.ts';
import type { Check, WorkedAnswer } from './worked-answer.ts';

const only = (text: Markdown): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [{ kind: 'text', text }],
});

/** What the second person is asked once they have done the arithmetic themselves. */
export const checkForm = ({ id, title }: WorkedAnswer): FormView => ({
  kind: 'form',
  act: 'answer-checked',
  args: [String(id)],
  title: 'Check this',
  fields: [
    {
      kind: 'choice',
      name: 'result',
      label: 'Done by hand, is it right?',
      description: title.slice(0, 100),
      required: true,
      options: [
        { label: 'It is right', value: 'right', description: 'I did the sum myself and it comes out' },
        { label: 'Something is off', value: 'off', description: 'Say below what, before anybody pours' },
      ],
    },
    {
      kind: 'line',
      name: 'note',
      label: 'What should they know?',
      required: false,
      mostCharacters: 200,
      placeholder: 'Volume looks high for that tank',
    },
  ],
});

const CHECKED_AWAY: ReadonlySet<string> = new Set(['answer-check', 'answer-share']);

/** The answer as everybody now sees it: who checked it, and what they found. */
export function checkedView({ view }: WorkedAnswer, check: Check): MessageView {
  const when: Markdown = { markdown: `<t:${Math.floor(check.at.getTime() / 1000)}:f>` };
  const note = check.note ? md` “${check.note}”` : md``;
  const text =
    check.result === 'right'
      ? md`**Checked by ${mentionOf(check.byId)}**, ${when}: it is right.${note}`
      : md`**Stop: ${mentionOf(check.byId)} says that something is off**, ${when}.${note} Do not dose by this before it is cleared up.`;
  const line: Block = { kind: 'text', text };
  const blocks = view.blocks.flatMap((block): Block[] => {
    if (block.kind !== 'buttons') return [block];
    const buttons = block.buttons.filter(({ act }) => !CHECKED_AWAY.has(act));
    return buttons.length > 0 ? [{ ...block, buttons }] : [];
  });
  const [head, ...rest] = blocks;
  const isRight = check.result === 'right';
  return {
    audience: 'everyone',
    tone: isRight ? view.tone : 'urgent',
    // Whoever reads on a phone sees the head and this, and then decides.
    blocks: head ? (isRight ? [head, line, ...rest] : [line, head, ...rest]) : [line],
    replaces: true,
    ...(view.foldedNotice ? { foldedNotice: view.foldedNotice } : {}),
  };
}

export const needsAThirdView = (): MessageView =>
  only(
    md`**A check needs a fresh pair of eyes.** Whoever asked, and whoever it is for, cannot check it. Let somebody else press it.`,
  );
export const checkedAlreadyView = (byId: string): MessageView => only(md`${mentionOf(byId)} has checked this already.`);
export const answerGoneView = (): MessageView =>
  only(md`**I no longer have this answer.** Ask anew with **/dose** or **/water**: the tank may have changed anyway.`);

/** An answer of one's own, shown to everybody so that somebody checks it. */
export function sharedView({ id, view, askerId }: WorkedAnswer): MessageView {
  const blocks = view.blocks.flatMap((block): Block[] => {
    if (block.kind !== 'buttons') return [block];
    const buttons = block.buttons.filter(({ act }) => !CHECKED_AWAY.has(act));
    return [{ ...block, buttons: [checkButton(id), ...buttons] }];
  });
  const line: Block = { kind: 'text', text: md`${mentionOf(askerId)} would like a second person to check this.` };
  return { ...view, audience: 'everyone', blocks: [line, ...blocks] };
}
