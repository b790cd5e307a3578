// What members read at the start, on a quiet day and in a full book, by the acts themselves.
import { describe, expect, test } from 'vitest';
import { render } from '../../../src/discord/render.ts';
import type { Answer, MessageView } from '../../../src/discord/message-view.ts';
import { MOST_EVENTS } from '../../../src/quarantine/quarantine.ts';
import { base } from '../knowledge/real-base.ts';
import { buttonsOf, NOW, opened, said } from './quarantine-acts.ts';

const HOUR_MS = 3_600_000;
const later = (hours: number) => ({ now: new Date(NOW.getTime() + hours * HOUR_MS) });
const LABEL = 'chelated 1.5-2.0 mg/L';

const club = opened();
let members = 0;

/** A member starts a plan; what was read before and after the yes. All of them share one club. */
function begun(plan: string, given: Record<string, unknown> = {}) {
  const who = String((members += 1));
  const animals = 'three chromis';
  const send = (verb: string, options = {}, hours = 0) => club.send(who, verb, options, later(hours));
  const asked = send('start', { animals, plan, zone: 'Europe/Lisbon', vet: 'yes', label: LABEL, ...given });
  const [row] = club.store.own('club', who);
  const press = (act: string, args: string[] = [], hours = 0, id = row!.id) =>
    club.press(who, `quarantine-${act}`, [String(id), ...args], later(hours));
  const began = press('start');
  return { who, row: row!, send, press, asked, began, today: send('today'), plan: send('plan') };
}

const lengthOf = (answer: Answer) => JSON.stringify(render(answer as MessageView).components).length;
const plans = [...base.plans.values()];

describe('the first answer', () => {
  test('velvet: the closer looks by their hours, and nothing twice', () => {
    const { began, today, plan } = begun('suspected-velvet');
    const at = (hours: number) => `<t:${(NOW.getTime() + hours * HOUR_MS) / 1000}:t>`;
    const words = said(began);
    // After 1 and 4 hours, with what the vet begins between them; after 12 hours it is night, so it comes the evening before.
    for (const hours of [1, 2, 4, 9]) expect(words).toContain(at(hours));
    expect(words).toContain('then every day at 19:00');
    expect(words).toContain(`next <t:${NOW.getTime() / 1000 + 3600}:R>`);
    expect(words).toContain('**Then:** Move every fish to a clean bare tank');
    for (const answer of [began, today]) expect(said(answer).match(/Ring a vet with fish experience/g)).toHaveLength(1);
    // Well below what a message takes.
    for (const answer of [began, today, plan]) expect(said(answer).length).toBeLessThan(3_400);
  });

  test.each(plans.map(({ id }) => id))('%s: every answer is well below 4,000 characters', (id) => {
    const { asked, began, today, plan } = begun(id);
    for (const answer of [asked, began, today]) expect(said(answer).length).toBeLessThan(3_400);
    expect(lengthOf(plan)).toBeLessThan(6_000);
    // All cautions are read at the start, and two of them again.
    for (const caution of base.plans.get(id)!.cautions) expect(said(asked)).toContain(caution.slice(0, 40));
    expect(said(plan).split('**Mind**')[1]!.match(/\n- /g)!.length).toBeLessThanOrEqual(2);
  });

  test.each(['praziquantel', 'freshwater-dip'])('%s asks for a thermometer, and says what the dates wait for', (id) => {
    const { asked, began, send } = begun(id);
    expect(said(asked)).toContain('Is there a thermometer in the tank?');
    expect(said(asked)).not.toContain('Is the temperature of the tank noted');
    expect(said(began)).toContain('**The dates follow** once the temperature is noted: **/quarantine log**');
    send('log', { reading: 'temperature', value: '25 C' });
    expect(said(send('plan'))).toContain('Earliest end');
  });

  test('a temperature at the start gives the dates at once', () => {
    expect(said(begun('praziquantel', { temperature: '25 C' }).began)).toContain('**Earliest end:**');
  });

  test('the range of the label stands in the plan and today', () => {
    const { today, plan } = begun('copper-bound');
    for (const answer of [today, plan]) expect(said(answer)).toContain('**By the label:** chelated 1.5–2 mg/L');
    const ionic = begun('copper-ionic');
    for (const answer of [ionic.today, ionic.plan]) expect(said(answer)).not.toContain('By the label');
  });

  test('plans without fish say nothing of a fish vet', () => {
    for (const { id, for: whom, vetLed } of plans.filter((plan) => plan.for !== 'fish' && !plan.vetLed)) {
      const { asked, today, plan } = begun(id);
      for (const answer of [asked, today, plan])
        expect(said(answer), `${id} ${whom} ${vetLed}`).not.toContain('fish vet');
    }
  });
});

describe('nothing is due', () => {
  const quiet = (id: string, hours: number) => {
    const { send, press } = begun(id);
    for (const reading of ['temperature', 'salinity', 'ammonia', 'ph', 'nitrite'])
      send('log', {
        reading,
        value: { temperature: '25 C', salinity: '35 ppt', ph: '8.1' }[reading] ?? '0 ppm',
      });
    for (let look = send('today'); ; look = send('today')) {
      const step = buttonsOf(look).find(({ act }) => act === 'quarantine-step');
      if (!step) break;
      press('step', step.args.slice(1));
    }
    press('well', [], hours);
    return said(send('today', {}, hours));
  };

  test.each([
    ['observation', 'A look each day is asked for: press **All well** after it.'],
    ['coral-hold', 'A look once a week is asked for: press **All well** after it.'],
    ['clam-watch', 'A look once a week is asked for'],
  ])('%s: the words follow how often it asks for a look', (id, words) => {
    expect(quiet(id, 1)).toContain(`**Nothing is due now.** ${words}`);
  });

  test('a display without fish asks for no look each day', () => {
    const words = quiet('fishless-display', 1);
    expect(words).toContain('**Nothing is due now.**');
    expect(words).not.toMatch(/look each day|All well/);
    expect(words).toContain('**Next:** Night look 1');
    expect(said(begun('fishless-display').began)).not.toContain('every day');
  });
});

describe('another plan in the place of one', () => {
  const changed = (hoursAgo: number) => {
    const { send, press, who } = begun('observation');
    send('log', { reading: 'temperature', value: '24 C' });
    send('log', { reading: 'temperature', value: '25.5 C' }, 1);
    send('change', { plan: 'praziquantel', vet: 'yes' }, 1 + hoursAgo);
    const next = club.store.own('club', who).find(({ follows }) => follows !== null)!;
    const began = said(press('start', [], 1 + hoursAgo, next.id));
    const readings = club.store.events(next).flatMap((event) => (event.kind === 'reading' ? [event] : []));
    return { began, readings };
  };

  test('takes the last temperature over while it is younger than a day, and says so', () => {
    const { began, readings } = changed(23.9);
    expect(readings).toMatchObject([
      { at: later(24.9).now, reading: { parameter: 'temperature', value: 25.5, unit: '°C' } },
    ]);
    expect(began).toMatch(/\*\*Temperature:\*\* .*25\.5 °C, taken over from the plan before\./);
    expect(began).toContain('**Earliest end:**');
  });

  test('takes no older one over', () => {
    const { began, readings } = changed(24);
    expect(readings).toEqual([]);
    expect(began).toContain('**The dates follow** once the temperature is noted');
  });
});

describe('a full book', () => {
  function full() {
    const { row, who, ...acts } = begun('observation');
    acts.press('well', [], 20);
    club.store.together(() => {
      for (let at = club.store.events(row).length; at < MOST_EVENTS; at += 1)
        club.store.note(row, { kind: 'note', at: NOW, text: `word ${at}` }, who, NOW);
    });
    return { ...acts, count: () => club.store.events(row).length };
  }

  test('takes no more by any button or command, says so, and loses nothing', () => {
    const { press, send, count } = full();
    const answers = [
      press('well', [], 24),
      press('seen', ['some'], 24),
      press('step', ['first-meal'], 24),
      send('log', { reading: 'temperature', value: '25 C' }, 24),
      send('log', { happened: 'animal added' }, 24),
    ];
    for (const answer of answers) {
      expect(said(answer)).toContain('the book is full');
      expect(said(answer)).toMatch(/Nothing of it is lost[\s\S]*\/quarantine finish[\s\S]*\/quarantine start/);
    }
    expect(count()).toBe(MOST_EVENTS);
    // Looking goes on.
    expect(said(send('today', {}, 24))).toContain('Observation, day 2');
  });

  test('still says what to do first for a sign, and that it was not noted', () => {
    const { send, count } = full();
    const words = said(send('check', { see: 'fish-white-spots' }, 24));
    expect(words).toMatch(/white spot/i);
    expect(words).toContain('**Nothing was noted:** the book of this quarantine is full');
    expect(count()).toBe(MOST_EVENTS);
  });

  test('lets an entry be taken back', () => {
    const { send, press, count } = full();
    expect(said(send('undo', {}, 21))).toContain('Taken back');
    expect(count()).toBe(MOST_EVENTS + 1);
    expect(said(press('well', [], 24))).toContain('the book is full');
  });
});
