import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { asks, ballot, HOUR_MS, notices, openCaseClub, opening, pass, pingsOf } from './club.ts';

const NOTICE = /^POST \/channels\/\d+\/messages$/;
const posts = (club: Awaited<ReturnType<typeof openCaseClub>>) =>
  club.room.requests.all().filter(({ method, path }) => NOTICE.test(`${method} ${path}`)).length;

describe('after 48 hours', () => {
  test('the case closes by vote, once, and the asker is told once', async () => {
    const club = await openCaseClub();
    const { ana, ben } = club;
    await asks(ana);
    await ben.press('Pest');
    await pass(club, 47 * HOUR_MS);
    expect(notices(ana)).toEqual([]);
    await pass(club, HOUR_MS);
    expect(notices(ana)).toHaveLength(1);
    expect(notices(ana)[0]!.text).toContain('Closed by vote');
    expect(notices(ana)[0]!.text).not.toContain('comes late');
    expect(opening(ben).text).toContain('Second opinion, closed');
    expect((await ben.press('Reopen')).replies[0]!.text).toContain('not for you');
    await pass(club, 48 * HOUR_MS);
    await club.restart();
    expect(notices(ana)).toHaveLength(1);
    expect(pingsOf(club, 'Ana')).toBe(1);
  });

  test('a clock that jumps 30 days closes it once as well, and says that it comes late', async () => {
    const club = await openCaseClub();
    const { ana, ben } = club;
    await asks(ana);
    await ben.press('Harmless');
    await pass(club, 30 * 24 * HOUR_MS);
    await pass(club, 30 * 24 * HOUR_MS);
    expect(notices(ana)).toHaveLength(1);
    expect(notices(ana)[0]!.text).toContain('comes late');
    // One vote of a new member is no reason to call anything harmless.
    expect(notices(ana)[0]!.text).toContain('Can’t tell');
  });

  test('many cases close each with its own notice', async () => {
    const club = await openCaseClub();
    const { ana } = club;
    for (const text of ['one', 'two', 'three']) await asks(ana, text);
    await pass(club, 48 * HOUR_MS);
    await club.room.quiet(200);
    expect(notices(ana).map(({ text }) => /case (\d)/.exec(text)?.[1])).toEqual(['1', '2', '3']);
    expect(pingsOf(club, 'Ana')).toBe(3);
  });
});

describe('the notice is delivered exactly once', () => {
  test.each([
    ['a 500 after it was posted', 'server-error', 'after-commit'],
    ['a connection that breaks after it was posted', 'hang-up', 'after-commit'],
    ['a 500 before', 'server-error', 'before-commit'],
    ['a connection that breaks before', 'hang-up', 'before-commit'],
  ] as const)('through %s', async (_what, kind, when) => {
    const club = await openCaseClub();
    const { ana, ben, room } = club;
    await asks(ana);
    await ben.press('Pest');
    room.faults.add({ match: NOTICE, kind, when, times: 1 });
    await pass(club, 48 * HOUR_MS);
    expect(room.faults.left()).toEqual([]);
    await pass(club, 5_000);
    await pass(club, 5_000);
    expect(notices(ana)).toHaveLength(1);
    expect(pingsOf(club, 'Ana')).toBe(1);
  });

  test('when the nonce is forgotten by then, because the history is looked through', async () => {
    const club = await openCaseClub();
    const { ana, ben, room } = club;
    await asks(ana);
    await ben.press('Pest');
    room.faults.add({ match: NOTICE, kind: 'hang-up', when: 'after-commit', times: 1 });
    await pass(club, 48 * HOUR_MS);
    await club.restart();
    const before = posts(club);
    await pass(club, 24 * HOUR_MS);
    expect(notices(ana)).toHaveLength(1);
    expect(posts(club) - before).toBe(0);
  });

  test('and so are the photo and the ballot', async () => {
    const club = await openCaseClub();
    const { ana, ben, room } = club;
    room.faults.add({ match: NOTICE, kind: 'hang-up', when: 'after-commit', times: 2 });
    await asks(ana);
    for (let n = 0; n < 4; n += 1) await pass(club, HOUR_MS / 4);
    expect(ben.sees().filter(({ images }) => images.length > 0)).toHaveLength(1);
    expect(ben.sees().filter(({ text }) => text.includes('Pest or harmless?'))).toHaveLength(1);
    await ben.press('Pest');
    expect(ballot(ana).text).toContain('Pest 1');
  });

  test('a rate limit is waited out', async () => {
    const club = await openCaseClub();
    const { ana, ben, room } = club;
    await asks(ana);
    await ben.press('Pest');
    room.faults.add({ match: NOTICE, kind: 'rate-limit', when: 'before-commit', times: 1, ms: 1_500 });
    await pass(club, 48 * HOUR_MS);
    const tried = posts(club);
    await sleep(800);
    expect(posts(club)).toBe(tried);
    await sleep(1_500);
    await room.quiet();
    expect(posts(club)).toBe(tried + 1);
    expect(notices(ana)).toHaveLength(1);
  });

  test('a refused token is not knocked at, and what waits goes out afterwards', async () => {
    const club = await openCaseClub();
    const { ana, ben, room } = club;
    await asks(ana);
    await ben.press('Pest');
    room.faults.add({ match: /^(PATCH|POST) \/channels/, kind: 'unauthorized', when: 'before-commit', times: 2 });
    await pass(club, 48 * HOUR_MS);
    await pass(club, 60_000);
    expect(room.faults.left()).toMatchObject([{ times: 2 }]);
    await pass(club, 6 * 60_000);
    await pass(club, 6 * 60_000);
    await pass(club, 6 * 60_000);
    expect(notices(ana)).toHaveLength(1);
  });
});
