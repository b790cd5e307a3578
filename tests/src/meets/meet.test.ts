import { describe, expect, test } from 'vitest';
import { bringRead } from '../../../src/meets/bring.ts';
import { answerBefore, listDueAt, meetDue, remindDueAt } from '../../../src/meets/meet.ts';

const at = (text: string) => new Date(`${text}Z`);
const meet = { heldOn: '2026-11-28', state: 'planned' as const, createdAt: at('2026-11-20T12:00') };

describe('a meet', () => {
  test.each([
    ['2026-11-27T07:59', null],
    ['2026-11-27T08:00', 'remind'],
    ['2026-11-28T05:59', 'remind'],
    ['2026-11-28T06:00', 'list'],
    ['2026-11-29T11:59', 'list'],
    ['2026-11-29T12:00', 'over'],
  ])('has due at %s: %s', (now, due) => {
    expect(meetDue(meet, at(now))).toBe(due);
    expect(meetDue({ ...meet, state: 'called-off' }, at(now))).toBeNull();
  });

  test('at short notice leaves an hour to say that one comes', () => {
    const today = { ...meet, createdAt: at('2026-11-28T10:00') };
    expect(listDueAt(today)).toEqual(at('2026-11-28T11:00'));
    expect(meetDue(today, at('2026-11-28T10:59'))).toBeNull();
    expect(remindDueAt({ ...meet, createdAt: at('2026-11-27T20:00') })).toEqual(at('2026-11-27T21:00'));
  });

  test('has its rings answered before its list goes out', () => {
    expect(answerBefore(meet.heldOn) < listDueAt(meet)).toBe(true);
  });
});

test.each<[string | null, number[], string[]]>([
  [null, [3, 5, 8], []],
  ['all', [3, 5, 8], []],
  ['none', [], []],
  ['3, 5', [3, 5], []],
  ['#8 and 3; 8', [8, 3], []],
  ['5, 12, torch', [5], ['12', 'torch']],
])('of what %j says, an own offer is brought and the rest is named', (typed, offers, unknown) => {
  expect(bringRead(typed, [3, 5, 8])).toEqual({ offers, unknown });
});
