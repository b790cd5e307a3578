import { expect, test } from 'vitest';
import { readCutDate } from '../../../src/swaps/cut-date.ts';

// 29 November 2026 is a Sunday.
const TODAY = '2026-11-29';

test.each([
  ['today', '2026-11-29'],
  ['yesterday', '2026-11-28'],
  ['Last week', '2026-11-22'],
  ['3 weeks ago', '2026-11-08'],
  ['two weeks ago', '2026-11-15'],
  ['a fortnight ago', '2026-11-15'],
  ['10d', '2026-11-19'],
  ['Saturday', '2026-11-28'],
  ['last sunday', '2026-11-22'],
  ['on mon', '2026-11-23'],
  ['2026-11-01', '2026-11-01'],
  ['2026/2/28', '2026-02-28'],
  ['1 Nov', '2026-11-01'],
  ['Nov 1st', '2026-11-01'],
  ['24 December', '2025-12-24'],
  ['24 Dec 2024', '2024-12-24'],
  ['29 Feb 2024', '2024-02-29'],
])('%s is %s', (typed, date) => {
  expect(readCutDate(typed, TODAY)).toEqual({ kind: 'on', date });
});

test.each([
  ['soon', 'unreadable'],
  ['', 'unreadable'],
  ['01/11', 'unreadable'],
  ['01/11/2026', 'unreadable'],
  ['2026-02-31', 'unreadable'],
  ['31 Feb 2026', 'unreadable'],
  ['in 3 days', 'unreadable'],
  ['2026-11-30', 'ahead'],
  ['24 Dec 2026', 'ahead'],
  ['1999-01-01', 'long-ago'],
])('%s is %s', (typed, kind) => {
  expect(readCutDate(typed, TODAY)).toEqual({ kind });
});
