import { expect, test } from 'vitest';
import type { ActResult, RestFault } from '../../src/room/room.ts';
import { callbacks, ERROR, named, openClub, titleOf } from '../set-up-club.ts';

const CALLBACK = /^POST \/interactions\/\d+\/[^/]+\/callback$/;
const SEND = /^POST \/channels\/\d+\/messages$/;
const BRISTLE = 'Common scavenging bristle worm — Leave it';

/** One question under a fault; afterwards the fault has been played out and the next question is answered as ever. */
async function askUnder(fault: RestFault) {
  const club = await openClub();
  const { room, lines } = club;
  const ana = room.actor('Ana');
  await ana.slash('critter name', named('diatoms'));
  room.requests.clear();
  room.faults.add(fault);
  const startedMs = performance.now();
  const asked = await ana.slash('critter name', named('bristle worm'));
  const tookMs = performance.now() - startedMs;
  await room.quiet(60);
  const statuses = callbacks(room).map(({ status }) => status);
  expect(room.faults.left()).toEqual([]);
  const visible = ana.sees().length - 1;
  const next = await ana.slash('critter name', named('aiptasia'));
  expect(next.replies.map(titleOf)).toEqual(['Aiptasia (glass anemone) — Take it out']);
  expect((await ana.press('Compare with…')).replies).toHaveLength(1);
  return { asked, statuses, visible, tookMs, problems: lines.filter(({ level }) => level >= ERROR) };
}

const oneCard = ({ replies, error }: ActResult) => {
  expect(error).toBeUndefined();
  expect(replies.map(titleOf)).toEqual([BRISTLE]);
};

test('500 before the answer was taken: sent again, seen once', async () => {
  const { asked, statuses, visible, problems } = await askUnder({
    match: CALLBACK,
    kind: 'server-error',
    when: 'before-commit',
    times: 1,
  });
  oneCard(asked);
  expect(statuses).toEqual([500, 204]);
  expect(visible).toBe(1);
  expect(problems).toEqual([]);
});

test('500 after the answer was taken: the 40060 of the second try counts as answered, and one reply is seen', async () => {
  const { asked, statuses, visible, problems } = await askUnder({
    match: CALLBACK,
    kind: 'server-error',
    when: 'after-commit',
    times: 1,
  });
  oneCard(asked);
  expect(statuses).toEqual([500, 400]);
  expect(visible).toBe(1);
  expect(problems).toEqual([]);
});

test('429 on the answer is waited for', async () => {
  const { asked, statuses, visible, tookMs, problems } = await askUnder({
    match: CALLBACK,
    kind: 'rate-limit',
    when: 'before-commit',
    times: 1,
    ms: 200,
  });
  oneCard(asked);
  expect(tookMs).toBeGreaterThanOrEqual(200);
  expect(statuses).toEqual([429, 204]);
  expect(visible).toBe(1);
  expect(problems).toEqual([]);
});

test('a connection that breaks after the answer was taken leaves one reply', async () => {
  const { asked, visible } = await askUnder({ match: CALLBACK, kind: 'hang-up', when: 'after-commit', times: 1 });
  oneCard(asked);
  expect(visible).toBe(1);
});

test('a connection that breaks before the answer was taken: the member gets one answer all the same', async () => {
  const { asked, visible } = await askUnder({ match: CALLBACK, kind: 'hang-up', when: 'before-commit', times: 1 });
  expect(asked.error).toBeUndefined();
  expect(asked.replies).toMatchObject([{ private: true }]);
  expect(visible).toBe(1);
});

test('an answer that Discord no longer takes ends quietly', async () => {
  const { asked, statuses, visible, problems } = await askUnder({
    match: CALLBACK,
    kind: 'not-found',
    when: 'after-commit',
    times: 1,
    code: 10062,
  });
  oneCard(asked);
  expect(statuses).toEqual([404]);
  expect(visible).toBe(1);
  expect(problems).toEqual([]);
});

test('an answer that is refused by mistake is told in one sentence, with the code of the log', async () => {
  const { asked, visible, problems } = await askUnder({
    match: CALLBACK,
    kind: 'forbidden',
    when: 'before-commit',
    times: 1,
  });
  expect(visible).toBe(1);
  expect(asked.replies).toMatchObject([{ private: true }]);
  expect(problems).toHaveLength(1);
  expect(asked.replies[0]!.text).toContain(`**${String(problems[0]!['ref'])}**`);
});

test('a button that fails is answered as a command is', async () => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  await ana.slash('critter name', named('bristle worm'));
  room.faults.add({ match: CALLBACK, kind: 'server-error', when: 'after-commit', times: 1 });
  const pressed = await ana.press('Whole entry');
  expect(pressed.replies).toHaveLength(1);
  expect(ana.sees()).toHaveLength(2);
});

test('what is offered while typing may fail; the next letter works', async () => {
  const { room, lines } = await openClub();
  const ana = room.actor('Ana');
  for (const when of ['before-commit', 'after-commit'] as const) {
    room.faults.add({ match: CALLBACK, kind: 'server-error', when, times: 1 });
    expect((await ana.autocomplete('critter name', named('brist'))).choices!.length).toBeGreaterThan(0);
    expect((await ana.autocomplete('critter name', named('bristl'))).choices!.length).toBeGreaterThan(0);
  }
  expect(lines.filter(({ level }) => level >= ERROR)).toEqual([]);
});

test.each(['before-commit', 'after-commit'] as const)('500 %s on a public answer leaves one message', async (when) => {
  const { room } = await openClub();
  const ana = room.actor('Ana');
  room.faults.add({ match: SEND, kind: 'server-error', when, times: 1 });
  await ana.say('@bot bristle worm');
  await room.quiet(60);
  expect(ana.sees().map(titleOf).slice(1)).toEqual([BRISTLE]);
  expect(room.world.pings).toEqual([]);
  expect((await ana.say('@bot aiptasia')).replies).toHaveLength(1);
});

test('a public answer that is refused at the last moment is logged, and the bot goes on', async () => {
  const { room, lines } = await openClub();
  const ana = room.actor('Ana');
  room.faults.add({ match: SEND, kind: 'forbidden', when: 'before-commit', times: 1 });
  const refused = room.requests.next(({ status }) => status === 403);
  const asking = ana.say('@bot bristle worm');
  await refused;
  const { replies } = await room.actor('Ben').slash('critter name', named('aiptasia'));
  expect(replies).toHaveLength(1);
  expect(lines.map(({ msg }) => msg)).toContain('a mention could not be answered');
  await asking;
});

test.each(['before-commit', 'after-commit'] as const)(
  'a connection that breaks under a public answer (%s) neither loses nor doubles it',
  async (when) => {
    const { room } = await openClub();
    const ana = room.actor('Ana');
    room.faults.add({ match: SEND, kind: 'hang-up', when, times: 1 });
    await ana.say('@bot bristle worm');
    await room.quiet(100);
    expect(ana.sees().map(titleOf).slice(1)).toEqual([BRISTLE]);
  },
);
