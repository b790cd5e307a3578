import { joined, md, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Change } from './log-changes.ts';
import { moment } from './state-words.ts';
import { takeBack } from './take-back.ts';

export type Noted = {
  quarantineId: number;
  eventId: number;
  /** What was noted, as a member would say it: "Copper 0.17 mg/L, ionic". */
  what: string;
  /** When it happened, where that is not now. */
  at: Date | null;
  /** How a value was read, and what was taken for granted. */
  understood: readonly string[];
  changes: readonly Change[];
};

/** What was noted and what it changed, before how the whole stands now. */
export function notedView(noted: Noted, today: MessageView): MessageView {
  const { quarantineId, eventId, what, at, understood, changes } = noted;
  const first: Markdown = md`**${what}: noted**${at ? md`, ${moment(at)}` : md``}.`;
  const lines = [
    first,
    ...changes.map(({ says, at: when }) => (when ? md`${says} ${moment(when, 'f')}.` : md`${says}`)),
    ...understood.map((each) => md`-# ${each}`),
  ];
  const [head, ...rest] = today.blocks;
  const buttons = today.blocks.some(({ kind }) => kind === 'buttons');
  const blocks: Block[] = rest.map((block) =>
    block.kind === 'buttons' ? { ...block, buttons: [...block.buttons, takeBack(quarantineId, eventId)] } : block,
  );
  return {
    ...today,
    blocks: [
      { kind: 'text', text: joined(lines) },
      ...(head ? [head] : []),
      ...blocks,
      ...(buttons ? [] : [{ kind: 'buttons', buttons: [takeBack(quarantineId, eventId)] } satisfies Block]),
    ],
  };
}
