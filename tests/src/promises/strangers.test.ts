import { describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Answer, MessageView, Request } from '../../../src/discord/message-view.ts';
import type { KeptPromise } from '../../../src/promises/promise.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import type { Offer } from '../../../src/swaps/offer.ts';
import { base } from '../knowledge/real-base.ts';
import { DAY_MS, later, NOW, offering } from './promise-club.ts';

const ON_PROMISE = [
  ...['frag-open', 'frag-release', 'frag-handed', 'frag-have', 'frag-not-so', 'frag-extend', 'frag-thread'],
  ...['frag-no-show', 'frag-came', 'frag-arrival'],
];
const FOR_CURATORS = ['frag-report-open', 'frag-hide', 'frag-settle', 'frag-curator-undo'];

function opened() {
  const { db } = openTemporaryDatabase();
  const { buttons, forms } = createAbilities(base, { db });
  const promises = promiseStore(db);
  const request = (memberId: string, given: Partial<Request>): Request => ({
    ...{ memberId, memberName: memberId, guildId: 'club', channelId: 'hall', locale: 'en-GB', now: NOW, ...given },
  });
  const everything = () =>
    [
      'swap_offers',
      'swap_promises',
      'swap_acts',
      'swap_reports',
      'swap_no_shows',
      'swap_blocks',
      'outbox',
      'quarantines',
    ]
      .map((table) => JSON.stringify(db.prepare(`SELECT * FROM ${table}`).all()))
      .join('\n');
  return {
    ...{ db, promises, everything, offers: offerStore(db), offer: offering(db) },
    press: (memberId: string, act: string, args: string[], given: Partial<Request> = {}): Answer =>
      buttons.get(act)!.run(args, request(memberId, given), args),
    send: (
      memberId: string,
      act: string,
      args: string[],
      filled: Record<string, string>,
      given: Partial<Request> = {},
    ) => forms.get(act)!.run(args, filled, request(memberId, given), {}),
  };
}
const titleOf = (answer: Answer): string => {
  const [block] = (answer as MessageView).blocks;
  return block?.kind === 'text' ? (block.text.markdown.split('\n')[0] ?? '') : '';
};

/** One promise in each state that one can be in. */
function everyState({ promises, offer, offers }: ReturnType<typeof opened>): { zoas: Offer; list: KeptPromise[] } {
  const zoas = offer('nell', 5);
  const made = ['q1', 'q2', 'said', 'done', 'let-go'].map((taker) => promises.promise(zoas, taker, NOW).promise!);
  promises.act(made[2]!.id, 'hand-over', 'nell', NOW);
  promises.act(made[3]!.id, 'hand-over', 'nell', NOW);
  promises.act(made[3]!.id, 'receive', 'done', NOW);
  promises.release(made[4]!, 'let-go', null, NOW);
  promises.promise(zoas, 'late', NOW);
  promises.promise(zoas, 'waits', NOW);
  promises.act(made[0]!.id, 'expire', 'clock', later(8 * DAY_MS));
  const gone = offer('nell', 1);
  promises.promise(gone, 'uma', NOW);
  offers.save({ ...gone, state: 'withdrawn' }, NOW);
  promises.offerGone(gone, NOW);
  const list = [...promises.of(zoas), ...promises.of(gone)];
  return { zoas, list };
}

describe('a stranger', () => {
  test.each([
    { where: 'in the club', given: {} },
    { where: 'in direct messages', given: { guildId: null } },
    { where: 'in another server', given: { guildId: 'elsewhere' } },
  ])('changes nothing with any button or form of a promise, $where', ({ given }) => {
    const club = opened();
    const { list } = everyState(club);
    expect(new Set(list.map(({ state }) => state))).toEqual(
      new Set(['promised', 'handed-over', 'released', 'expired', 'withdrawn']),
    );
    const before = club.everything();
    for (const { id } of list)
      for (const args of [[String(id)], [String(id), 'answer']]) {
        for (const act of ON_PROMISE)
          expect(titleOf(club.press('stranger', act, args, given)), act).toMatch(
            /between two others|Nothing is promised there/,
          );
        expect(titleOf(club.send('stranger', 'frag-released', args, { word: 'mine' }, given))).toMatch(
          /between two others|Nothing is promised there/,
        );
      }
    for (const act of [...ON_PROMISE, ...FOR_CURATORS, 'frag-promise', 'frag-report'])
      for (const id of ['', '0', '-1', '1e9', '999999', 'x', '1.5', '9'.repeat(40)])
        expect(titleOf(club.press('stranger', act, [id], given)), `${act} ${id}`).not.toBe('');
    expect(club.everything()).toBe(before);
  });

  test('cannot act as a curator, nor ask for a piece from outside of the club', () => {
    const club = opened();
    const { zoas } = everyState(club);
    const before = club.everything();
    for (const act of FOR_CURATORS) {
      expect(titleOf(club.press('nell', act, [String(zoas.id)]))).toContain('For curators');
      expect(titleOf(club.press('nell', act, [String(zoas.id)], { guildId: null }))).toContain('Only in a club');
    }
    expect(titleOf(club.send('nell', 'frag-curated', ['hide', String(zoas.id)], { reason: 'no' }))).toContain(
      'For curators',
    );
    expect(titleOf(club.press('olu', 'frag-promise', [String(zoas.id)], { guildId: 'elsewhere' }))).toContain(
      'don’t know',
    );
    expect(titleOf(club.press('olu', 'frag-promise', [String(zoas.id)], { guildId: null }))).toContain('don’t know');
    expect(club.everything()).toBe(before);
  });
});

test('the two of a promise that is over change nothing of it by any of its buttons', () => {
  const club = opened();
  const { list } = everyState(club);
  const over = list.filter(({ state }) => ['released', 'expired', 'withdrawn', 'handed-over'].includes(state));
  expect(over).toHaveLength(4);
  const before = JSON.stringify(club.promises.live('club'));
  const states = () => over.map(({ id }) => club.promises.findAnywhere(id)!.state);
  const kept = states();
  for (const { id, giverId, takerId } of over)
    for (const who of [giverId, takerId])
      for (const act of ON_PROMISE.filter((each) => each !== 'frag-arrival'))
        for (const given of [{}, { guildId: null }]) club.press(who, act, [String(id)], given);
  expect(states()).toEqual(kept);
  expect(JSON.stringify(club.promises.live('club'))).toBe(before);
  expect(club.db.prepare('SELECT count(*) FROM quarantines').pluck().get()).toBe(0);
});
