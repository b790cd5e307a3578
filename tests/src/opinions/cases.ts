import type { Case } from '../../../src/opinions/opinion.ts';

export const NOON = new Date('2026-11-25T12:00:00Z');
export const after = (ms: number) => new Date(NOON.getTime() + ms);
export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;
/** How long a case stays open where the club never set anything: two days. */
export const OPEN_FOR_MS = 48 * HOUR_MS;
export const CORA = { id: 'cora', name: 'Cora' };

/** A case that Ana opened at noon. */
export const aCase = (change: Partial<Case> = {}): Case => ({
  id: 1,
  guildId: 'guild',
  channelId: 'channel',
  askerId: 'ana',
  askerName: 'Ana',
  text: 'brown see-through palm tree on the rock',
  photoName: 'photo.png',
  photoAlt: 'a photo',
  credit: null,
  wantsThread: true,
  sighting: null,
  openedAt: NOON,
  closesAt: after(OPEN_FOR_MS),
  openForMs: OPEN_FOR_MS,
  closings: 0,
  closed: null,
  undo: null,
  messageId: null,
  threadId: null,
  ballotMessageId: null,
  ...change,
});
