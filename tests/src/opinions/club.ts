import type { Practice } from '../../../src/room/practice.ts';
import type { Actor, GivenFile, SeenMessage } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';
import { tellingPng } from './pictures.ts';

export const WORM = 'brown see-through palm tree on the rock, zips into its hole when i poke it';
export const photo = (data: Buffer = tellingPng(), name = 'IMG_2041.png'): GivenFile => ({ name, data });

/** A club with Ana who asks, Ben and Dee who vote, and Cora the curator. */
export async function openCaseClub(options: Parameters<typeof openClub>[0] = {}) {
  const club = await openClub({ settleMs: 40, ...options });
  const { room } = club;
  return {
    ...club,
    ana: room.actor('Ana'),
    ben: room.actor('Ben'),
    dee: room.actor('Dee'),
    cora: room.actor('Cora', { name: 'Cora', roles: ['curator'] }),
  };
}

export const asks = (who: Actor, text: string | null = WORM, file = photo()) =>
  who.slash('critter ask', [
    { name: 'photo', value: '', file },
    ...(text === null ? [] : [{ name: 'text', value: text }]),
  ]);

/** What everybody can see of a case: the photo in the channel, the ballot, and what was told. */
export const opening = (who: Actor): SeenMessage => found(who, /second opinion, (please|closed)/i);
export const ballot = (who: Actor): SeenMessage => found(who, /Pest or harmless\?$|Voting is closed/m);
export const notices = (who: Actor): SeenMessage[] =>
  who.sees().filter(({ text }) => /your second opinion is closed/.test(text));

function found(who: Actor, words: RegExp): SeenMessage {
  const message = who
    .sees()
    .find(({ text, private: isPrivate }) => !isPrivate && words.test(text.split('\n')[0] ?? ''));
  if (!message) throw new Error(`nothing to be seen of ${words}`);
  return message;
}

export const HOUR_MS = 3_600_000;
/** Moves the clock and lets everything due happen. */
export async function pass({ room }: Practice, ms: number): Promise<void> {
  room.clock.advance(ms);
  await room.quiet(80);
}

/** How often a member was really notified. */
export const pingsOf = ({ room }: Practice, name: string): number =>
  room.world.pings.filter(({ memberIds }) => memberIds.includes(room.world.members.named(name)?.id ?? '')).length;
