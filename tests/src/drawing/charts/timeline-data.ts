import type { TimelineData, TimelineLane } from '../../../../src/drawing/charts/charts.ts';

const HOUR = 3_600_000;

/** A moment counted from the beginning on 28 Nov 2026, day 1. */
export const on = (day: number, hour = 0) => new Date(Date.UTC(2026, 10, 27 + day) + hour * HOUR);

const transfer = (day: number, state: 'done' | 'running' | 'coming' | 'overdue') => ({ earliest: on(day, 8), planned: on(day, 14), latest: on(day, 22), state }); // prettier-ignore

/** Thirty clear days that began anew after a sign on day 20, with checks on the way. */
export const OBSERVATION: TimelineData = {
  title: 'Observation of the new wrasse',
  now: on(32, 12),
  begins: on(1),
  ends: on(51),
  lanes: [
    {
      name: '30 clear days',
      kind: 'hold',
      spans: [
        { from: on(1), to: on(21), state: 'restarted' },
        { from: on(21), to: on(51), state: 'running' },
      ],
    },
    { name: 'Feeding watched', kind: 'step', spans: [{ from: on(1), to: on(15), state: 'done' }] },
    { name: 'Ammonia at zero', kind: 'hold', spans: [
      { from: on(1), to: on(9), state: 'done' }, { from: on(9), to: on(13), state: 'paused' },
      { from: on(13), to: on(19), state: 'done' },
    ] }, // prettier-ignore
    {
      name: 'Move to the display',
      kind: 'step',
      spans: [],
      windows: [{ earliest: on(51), planned: on(51, 12), latest: on(54), state: 'coming' }],
    },
  ],
  marks: [
    { at: on(9, 10), kind: 'reading', label: 'ammonia 0.5 mg/L' },
    { at: on(20, 18), kind: 'sign', label: 'three white spots on the tail' },
  ],
};

/** Four transfers, one of them late. */
export const TRANSFERS: TimelineData = {
  title: 'Tank transfer, four moves',
  now: on(8, 9),
  begins: on(1, 14),
  ends: on(13, 14),
  lanes: [
    { name: 'Transfers', kind: 'step', spans: [], windows: [transfer(4, 'done'), transfer(7, 'overdue'), transfer(10, 'coming'), transfer(13, 'coming')] }, // prettier-ignore
    {
      name: 'Fish in tank A',
      kind: 'step',
      spans: [
        { from: on(1, 14), to: on(4, 14), state: 'done' },
        { from: on(7, 22), to: on(10, 14), state: 'coming', label: 'second stay' },
      ],
    },
    { name: 'Tank A dries', kind: 'hold', spans: [{ from: on(4, 14), to: on(7, 14), state: 'done' }] },
    {
      name: 'Fish in tank B',
      kind: 'hold',
      spans: [
        { from: on(4, 14), to: on(7, 14), state: 'done' },
        { from: on(7, 14), to: on(8, 20), state: 'overdue' },
      ],
    },
  ],
  marks: [{ at: on(4, 15), kind: 'moved', label: 'tank A to tank B' }],
};

/** A display without fish. */
export const FISHLESS: TimelineData = {
  title: 'Display without fish, 76 days',
  now: on(41, 9),
  begins: on(1),
  ends: on(77),
  lanes: [
    { name: 'No fish', kind: 'hold', spans: [{ from: on(1), to: on(77), state: 'running' }] },
    { name: 'At 26 °C or more', kind: 'hold', spans: [{ from: on(1), to: on(30), state: 'done' }, { from: on(30), to: on(33), state: 'paused' }, { from: on(33), to: on(80), state: 'running' }] }, // prettier-ignore
    { name: 'Fish come back', kind: 'step', spans: [], windows: [{ earliest: on(77), planned: on(80), latest: on(84), state: 'coming' }] }, // prettier-ignore
  ],
  marks: [
    { at: on(2, 9), kind: 'moved', label: 'six fish to the quarantine tank' },
    { at: on(30, 9), kind: 'reading', label: '23.5 °C' },
    { at: on(33, 9), kind: 'reading', label: '26.2 °C' },
    { at: on(36, 9), kind: 'death', label: 'one goby, in the quarantine tank' },
  ],
};

/** One day and nothing else. */
export const ONE_DAY: TimelineData = {
  title: 'A day of watching before the move',
  now: on(1, 10),
  begins: on(1),
  ends: on(2),
  lanes: [{ name: 'Watching', kind: 'hold', spans: [{ from: on(1), to: on(2), state: 'running' }] }],
  marks: [],
};

/** As many lanes as are asked for. */
export const lanes = (count: number): TimelineLane[] =>
  Array.from({ length: count }, (_, i) => ({ name: `Lane ${i + 1}`, kind: 'hold', spans: [{ from: on(1 + i), to: on(8 + i), state: 'coming' }] })); // prettier-ignore
