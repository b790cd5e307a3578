import { expect } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { ActResult, Actor, GivenFile, SeenMessage } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';

export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;

/** A club at noon in UTC: Nell offers, Uma looks, Bo is a stranger, Olu an officer, Petra takes no direct messages. */
export async function openSwapClub(options: Parameters<typeof openClub>[0] = {}) {
  const club = await openClub({ settleMs: 40, clock: createRoomClock(new Date('2026-11-29T12:00:00Z')), ...options });
  const { room } = club;
  const pass = async (ms: number) => {
    room.clock.advance(ms);
    await room.quiet(80);
  };
  return {
    ...club,
    pass,
    nell: room.actor('Nell'),
    uma: room.actor('Uma'),
    bo: room.actor('Bo'),
    olu: room.actor('Olu', { name: 'Olu', roles: ['officer'] }),
    petra: room.actor('Petra', { name: 'Petra', dmClosed: true }),
  };
}
export type SwapClub = Awaited<ReturnType<typeof openSwapClub>>;

export const ask = (who: Actor, command: string, given: Readonly<Record<string, string | GivenFile>> = {}) =>
  who.slash(
    `frag ${command}`,
    Object.entries(given).map(([name, value]) =>
      typeof value === 'string' ? { name, value } : { name, value: '', file: value },
    ),
  );

/** The words of the first reply, as they are read; an act that could not be played fails. */
export const readOf = ({ replies, error }: ActResult): string => {
  expect(error).toBeUndefined();
  return asRead(replies[0]?.text ?? '');
};
export const says = async (who: Actor, command: string, given?: Parameters<typeof ask>[2]) =>
  readOf(await ask(who, command, given));
export const press = async (who: Actor, label: string) => readOf(await who.press(label));

/** Offers a coral as quickly as it goes: the form is sent as it opens. */
export async function offers(who: Actor, given: Parameters<typeof ask>[2], form: Record<string, string> = {}) {
  const opened = await ask(who, 'offer', given);
  expect(opened.error).toBeUndefined();
  expect(opened.modal).toBeDefined();
  const looked = readOf(await who.fill(form));
  expect(looked).toContain('Nothing is posted yet');
  return press(who, 'Post it');
}

const seen = (message: SeenMessage): SeenMessage => ({ ...message, text: asRead(message.text) });
/** Cards of offers in a channel, the first first. */
export const cards = (who: Actor): SeenMessage[] =>
  who
    .sees()
    .filter(({ private: isPrivate, buttons }) => !isPrivate && buttons.some(({ label }) => label === 'Keeper’s menu'))
    .map(seen);
/** What the bot wrote to a member directly. */
export const direct = (who: Actor, words: RegExp): SeenMessage[] =>
  who
    .sees()
    .filter(({ private: isAnswer, channelName }) => !isAnswer && !['ask', 'swap'].includes(channelName))
    .map(seen)
    .filter(({ text }) => words.test(text));
