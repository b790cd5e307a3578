import { describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Answer, MessageView, Request } from '../../../src/discord/message-view.ts';
import { keepTanks } from '../../../src/tanks/tank-keeping.store.ts';
import { knowledge } from '../../set-up-club.ts';
import { aReading, aTank, daysLater, NOON } from './tanks.ts';

const asks = (memberId: string, guildId: string | null = 'one'): Request => ({
  memberId,
  memberName: memberId,
  guildId,
  channelId: 'ask',
  locale: 'en',
  now: daysLater(5),
});

/** A tank of Ana’s in the first club that everybody there may see, with an entry and a change that can be undone. */
function stage() {
  const { db } = openTemporaryDatabase();
  const tanks = keepTanks(db);
  const done = tanks.addTank(aTank({ name: 'Shown', visibility: 'club' }), NOON);
  if (done.kind !== 'done') throw new Error(done.kind);
  tanks.note(done.tank, aReading(9), NOON);
  const { entry, changeId } = tanks.note(done.tank, aReading(8, 3), NOON);
  const { buttons, forms } = createAbilities(knowledge(), { db });
  const press = (act: string, args: (string | number)[], request: Request, chosen: string[] = []): Answer =>
    buttons.get(act)!.run(args.map(String), request, chosen);
  const fill = (act: string, args: (string | number)[], request: Request, filled: Record<string, string>): Answer =>
    forms.get(act)!.run(args.map(String), filled, request, {});
  const everything = () =>
    ['tanks', 'tank_log', 'tank_changes'].map((table) => db.prepare(`SELECT * FROM ${table}`).all());
  return { tankId: done.tank.id, entryId: entry.id, changeId, press, fill, everything };
}
const words = (answer: Answer): string => {
  if ('kind' in answer) return answer.kind;
  return (answer satisfies MessageView).blocks
    .map((block) => (block.kind === 'text' ? block.text.markdown : ''))
    .join('\n');
};

describe('buttons on a tank', () => {
  const all = ({ tankId, entryId, changeId, press, fill }: ReturnType<typeof stage>, request: Request): Answer[] => [
    press('tank-undo', [changeId], request),
    press('tank-remove', [tankId], request),
    press('tank-entry', [tankId], request, [String(entryId)]),
    press('tank-correct', [entryId], request),
    press('tank-delete', [entryId], request),
    fill('tank-corrected', [entryId], request, { value: '1 dKH' }),
  ];

  test.each([
    ['another member', asks('ben')],
    ['the owner in another club', asks('ana', 'two')],
    ['another member in another club', asks('ben', 'two')],
    ['the owner in a direct message', asks('ana', null)],
  ])('%s changes nothing and opens nothing', (_who, request) => {
    const on = stage();
    const before = on.everything();
    for (const answer of all(on, request)) {
      expect(words(answer)).not.toBe('form');
      expect(words(answer)).not.toMatch(/Shown|8\\?\.0/);
      if (!('kind' in answer)) expect(answer.audience).toBe('member');
    }
    expect(on.everything()).toEqual(before);
  });

  test('a chart is for those who may see the tank, in its club', () => {
    const { press, tankId } = stage();
    expect(words(press('tank-chart', [tankId, 'alkalinity'], asks('ben')))).toContain('Shown');
    expect(words(press('tank-chart', [tankId, 'alkalinity'], asks('ana', 'two')))).not.toContain('Shown');
    expect(words(press('tank-chart', [tankId, 'alkalinity'], asks('ana', null)))).toContain('belong to a club');
  });

  test('words on a button that mean nothing are met kindly', () => {
    const on = stage();
    const before = on.everything();
    for (const act of ['tank-undo', 'tank-remove', 'tank-chart', 'tank-correct', 'tank-delete', 'tank-entry'])
      for (const args of [[], ['x'], ['-1'], ['1e999'], ["1' OR 1=1"]])
        expect(words(on.press(act, args, asks('ana'), ['x']))).toMatch(/not there any more|Nothing to take back/);
    expect(on.everything()).toEqual(before);
  });

  test('all of them work for the owner', () => {
    for (const act of ['tank-undo', 'tank-remove', 'tank-delete'] as const) {
      const on = stage();
      const before = on.everything();
      const id = { 'tank-undo': on.changeId, 'tank-remove': on.tankId, 'tank-delete': on.entryId }[act];
      on.press(act, [id], asks('ana'));
      expect(on.everything()).not.toEqual(before);
    }
  });
});
