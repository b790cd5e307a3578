import type { ButtonView } from '../discord/message-view.ts';

/** The act behind {@link takeBack}. */
export const TAKE_BACK_ACT = 'quarantine-undo';

/** The button under an answer that takes back the very event it told of, whatever was noted since. */
export const takeBack = (quarantineId: number, eventId: number | string): ButtonView => ({
  label: 'Take it back',
  act: TAKE_BACK_ACT,
  args: [String(quarantineId), String(eventId)],
});
