import { describe, expect, test } from 'vitest';
import type { MessageView } from '../../../src/discord/message-view.ts';
import { render } from '../../../src/discord/render.ts';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import { fold } from '../../../src/quarantine/fold.ts';
import type { PlanEvent } from '../../../src/quarantine/plan-event.ts';
import { alarmsInWords, bar, counted, datesInWords, dueTitle, ended } from '../../../src/quarantine/state-words.ts';
import { boardView, planView, todayView } from '../../../src/quarantine/state.view.ts';
import { checkIns, copper, day, did, event, hour, lifeCycles, planOf, started, ZONE } from './fold-of.ts';
import { quarantineOf } from './quarantine-of.ts';

const { knowledge } = loadKnowledge('knowledge');
const signs = new Map(knowledge.signs.map((sign) => [sign.id, sign]));
const base = { signs, sources: new Map(knowledge.sources.map((source) => [source.id, source])) };

function standing(id: string, events: readonly PlanEvent[], now: Date) {
  const plan = planOf(id);
  const state = fold(plan, events, now, { zone: ZONE, lifeCycles });
  return {
    quarantine: quarantineOf({ plan: id }),
    plan,
    events,
    state: { ...state, alarms: alarmsInWords(signs, state.alarms) },
  };
}
const textsOf = ({ blocks }: MessageView) =>
  blocks.flatMap((block) => (block.kind === 'text' ? [block.text.markdown] : []));
function today(id: string, events: readonly PlanEvent[], now: Date): string {
  const { quarantine, plan, state } = standing(id, events, now);
  return textsOf(todayView(quarantine, plan, state, now)).join('\n');
}

describe('today', () => {
  test('says how far each hold is, with a bar', () => {
    const words = today('observation', [started(), ...checkIns(1, 12)], day(12.2));
    expect(words).toContain('▓▓▓▓░░░░░░ Days without a sign: 12 of 30 days');
    expect(words).toContain('▓▓▓▓▓▓▓▓▓▓ Days of eating normally: all 7 days are there');
  });
  test('names what is due in words, steps first', () => {
    const words = today('suspected-velvet', [started()], hour(3));
    expect(words.indexOf('**Move every fish')).toBeGreaterThan(0);
    expect(words.indexOf('**Move every fish')).toBeLessThan(words.indexOf('**Measure ammonia**'));
    const missed = today('observation', [started()], day(4));
    expect(missed).toContain('- **Check in** (overdue');
    expect(missed).toContain('- **Measure temperature** (');
    expect(missed).not.toMatch(/\*\*(check-in|temperature|ammonia)\*\*/);
  });
  test('names a sign as its entry does, and what to do first', () => {
    const spots = { kind: 'sign-seen', sign: 'fish-white-spots', effect: 'infectious', urgency: 'urgent' };
    const words = today('observation', [started(), event(day(2), spots)], day(2.1));
    expect(words).toContain('**Act today.** White spots the size of salt grains. Do first: ');
    expect(words).not.toContain('fish-white-spots');
  });
  test('counts days as the keeper does: the local date of the start is day 1', () => {
    // 00:30 in Berlin on the next date is day 2, fifteen hours after the start.
    expect(today('observation', [started()], new Date('2026-06-01T22:30:00Z'))).toContain('Observation, day 2');
  });
});

describe('the whole plan', () => {
  test('puts an emergency first, then the end', () => {
    const now = day(3);
    const [, first, second] = textsOf(
      planView(base, standing('copper-ionic', [started(), copper(day(2.9), 0.4)], now), now),
    );
    expect(first).toMatch(/^\*\*Now\.\*\*/);
    expect(second).toMatch(/Earliest end|end has no date/);
  });
  test('has a picture, the cautions and the nearest dates even where it has to be shortened', () => {
    for (const [id, events] of [
      ['suspected-velvet', [started(), did(hour(0.2), 'vet-and-air')]],
      ['copper-bound', [started({ copperLabel: { form: 'chelated', low: 1.5, high: 2 } })]],
    ] as const) {
      const now = hour(5);
      const view = planView(base, standing(id, events, now), now);
      expect(view.blocks.some(({ kind }) => kind === 'picture')).toBe(true);
      const sent = JSON.stringify(render(view).components);
      expect(sent).toContain('**Mind**');
      expect(sent).toContain(
        id === 'suspected-velvet' ? 'Move every fish to a clean bare tank' : 'Take the copper out',
      );
    }
  });
  test('says beside each date why it is that date, and on what it rests', () => {
    const now = day(1);
    const texts = textsOf(planView(base, standing('tank-transfer', [started()], now), now));
    const transfers = texts.find((words) => words.includes('Transfer 1 of 4'))!;
    expect(transfers).toContain('64 hours after the start');
    expect(transfers).toContain('(Colorni 1985, published)');
    // What all turns share is said once.
    expect(transfers.match(/No water, net, hide or sponge crosses/g)).toHaveLength(1);
  });
  test('says what dates without a temperature wait for', () => {
    const texts = textsOf(planView(base, standing('praziquantel', [started()], day(1)), day(1)));
    expect(texts.join('\n')).toContain(
      '**Dose**: no dates yet. They follow once the temperature is noted: **/quarantine log**',
    );
  });
});

test('the board tells in one line how far each is', () => {
  const now = day(12.2);
  const row = standing('observation', [started(), ...checkIns(1, 12)], now);
  const velvet = standing('suspected-velvet', [started()], now);
  const words = textsOf(boardView([row], [], [velvet], now)).join('\n');
  expect(words).toContain('day 13**: ▓▓▓▓░░░░░░ 12 of 30 days, earliest end');
  expect(words).toContain('**act now, see /quarantine today**');
});

test('words', () => {
  expect([bar(0, 30), bar(29.9, 30), bar(30, 30), bar(1, 0)]).toEqual([
    '░░░░░░░░░░',
    '▓▓▓▓▓▓▓▓▓░',
    '▓▓▓▓▓▓▓▓▓▓',
    '░░░░░░░░░░',
  ]);
  expect([counted(1, 'day'), counted(3, 'day'), counted(6, 'search')]).toEqual(['1 day', '3 days', '6 searches']);
  expect([ended('It is so'), ended('It is so.'), ended('Is it?')]).toEqual(['It is so.', 'It is so.', 'Is it?']);
  expect(datesInWords('from 2026-12-14, the day of the start')).toBe('from 14 December, the day of the start');
  const item = { since: day(1), says: '' };
  expect(dueTitle({ ...item, kind: 'reading', id: 'ph', title: 'ph' })).toBe('Measure pH');
  expect(dueTitle({ ...item, kind: 'step', id: 'x', title: 'Look again' })).toBe('Look again');
});
