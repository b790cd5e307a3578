// What changes while it runs, and how it ends.
import { describe, expect, test } from 'vitest';
import { buttonsOf, DAY_MS, helper, NOW, opened, said } from './quarantine-acts.ts';

describe('a change', () => {
  function running(plan = 'observation', animals = 'three chromis') {
    const club = opened();
    club.send('1', 'start', { animals, plan, zone: 'Europe/Lisbon', helper: helper('2'), tank: 'tub' });
    const [row] = club.store.own('club', '1');
    club.press('1', 'quarantine-start', [String(row!.id)]);
    return { ...club, id: row!.id };
  }

  test('nothing given shows how it is set; a helper and a stranger may not change it', () => {
    const { send } = running();
    expect(said(send('1', 'change'))).toMatch(/three chromis: how it is set[\s\S]*\*\*tank:\*\* tub/);
    expect(said(send('2', 'change', { tank: 'mine' }))).toContain('for their keeper');
    expect(said(send('3', 'change', { tank: 'mine' }))).toContain('You have none running');
    expect(said(send('1', 'change', {}, { guildId: null }))).toContain('Only in a club');
  });

  test('everything but the plan is saved at once, as it was and as it is', () => {
    const { store, send, id } = running();
    const answer = said(
      send('1', 'change', {
        ...{ animals: 'four chromis', tank: 'blue tub', time: '7 pm', zone: 'America/Chicago', 'seen-by': 'club' },
        ...{ helper: helper('4'), 'helper-gone': helper('2') },
      }),
    );
    expect(answer).toMatch(/three chromis → \*\*four chromis/);
    expect(answer).toMatch(/tub → \*\*blue tub/);
    expect(answer).toMatch(/Europe\/Lisbon → \*\*America\/Chicago/);
    expect(store.find(id, 'club')).toMatchObject({
      ...{ animals: 'four chromis', tank: 'blue tub', timeOfDay: '19:00', zone: 'America/Chicago', visibility: 'club' },
      helpers: ['4'],
    });
    expect(said(send('1', 'change', { tank: 'blue tub' }))).toContain('Nothing is different');
  });

  test.each<[Record<string, unknown>, string]>([
    [{ time: '25:00' }, 'could not read that time'],
    [{ zone: 'Atlantis' }, 'no such time zone'],
    [{ helper: helper('1') }, 'You are their keeper'],
    [{ helper: helper('8', true) }, 'Not a bot'],
    [{ 'helper-gone': helper('7') }, 'Not a helper'],
    [{ plan: 'magic' }, 'I don’t know that plan'],
    [{ label: 'nonsense' }, 'I could not use that label'],
  ])('%o changes nothing', (given, words) => {
    const { store, send, id } = running();
    const before = store.find(id, 'club');
    expect(said(send('1', 'change', { tank: 'other', ...given }))).toContain(words);
    expect(store.find(id, 'club')).toEqual(before);
  });

  test('another plan asks first, says what is lost, and takes the place of the old one', () => {
    const { store, send, press, id } = running();
    const now = new Date(NOW.getTime() + 3 * DAY_MS);
    press('1', 'quarantine-well', [String(id)], { now });
    const asked = send('1', 'change', { plan: 'copper-ionic' }, { now });
    expect(said(asked)).toContain('What you lose:');
    expect(said(send('1', 'today', {}, { now }))).toContain('Observation');
    const next = store.own('club', '1').find((each) => each.follows === id)!;
    expect(next).toMatchObject({ plan: 'copper-ionic', animals: 'three chromis', tank: 'tub', helpers: ['2'] });
    expect(said(press('1', 'quarantine-start', [String(next.id)], { now }))).toContain('it runs');
    expect(store.find(id, 'club')!.ended).toEqual({ how: 'called-off', at: now });
    expect(store.own('club', '1').map((each) => each.id)).toEqual([next.id]);
    // From one medicine to another only with a vet.
    expect(said(send('1', 'change', { plan: 'hyposalinity' }, { now }))).toContain('One medicine at a time');
    expect(said(send('1', 'change', { plan: 'hyposalinity', vet: 'yes' }, { now }))).toContain('What you lose:');
  });

  test('dust that was noted speaks against copper', () => {
    const { store, send, id } = running();
    const seen = { sign: 'fish-dust-like-spots', effect: 'infectious', urgency: 'emergency' } as const;
    store.note(store.find(id, 'club')!, { kind: 'sign-seen', at: NOW, ...seen }, '1', NOW);
    expect(said(send('1', 'change', { plan: 'copper-ionic' }))).toContain('Not this plan now');
    expect(said(send('1', 'change', { plan: 'suspected-velvet' }))).toContain('What you lose:');
  });

  test('a label that was misread counts anew from the start', () => {
    const { store, send, press } = opened();
    send('1', 'start', { animals: 'chromis', plan: 'copper-bound', label: 'chelated 1.5-2', zone: 'Europe/Lisbon' });
    const [row] = store.own('club', '1');
    press('1', 'quarantine-start', [String(row!.id)]);
    const level = { reading: 'copper', value: '2.2 mg/L', form: 'chelated' };
    send('1', 'log', level, { now: new Date(NOW.getTime() + 3_600_000) });
    const now = new Date(NOW.getTime() + DAY_MS);
    expect(said(send('1', 'today', {}, { now }))).toContain('label');
    send('1', 'change', { label: 'chelated 2.0-2.5 mg/L' }, { now });
    const started = store.events(store.find(row!.id, 'club')!).filter(({ kind }) => kind === 'started');
    expect(started.map(({ at }) => at)).toEqual([NOW, NOW]);
    expect(said(send('1', 'today', {}, { now }))).not.toContain('above the label');
  });
});

describe('the end', () => {
  test('a complete plan is finished, and what follows starts for the same animals', () => {
    const { store, send, press } = opened();
    send('1', 'start', {
      animals: 'a tang',
      plan: 'vet-led-bath',
      zone: 'Europe/Lisbon',
      tank: 'tub',
      vet: 'yes',
      helper: helper('2'),
    });
    const [row] = store.own('club', '1');
    const id = String(row!.id);
    press('1', 'quarantine-start', [id]);
    press('1', 'quarantine-step', [id, 'vet-plan-over'], { now: new Date(NOW.getTime() + 3_600_000) });
    let now = NOW;
    for (let day = 1; day <= 40; day += 1) {
      now = new Date(NOW.getTime() + day * DAY_MS);
      press('1', 'quarantine-well', [id], { now });
    }
    expect(said(send('2', 'finish', {}, { now }))).toContain('for their keeper');
    const over = send('1', 'finish', {}, { now });
    expect(said(over)).toContain('Observation');
    const [button] = buttonsOf(over);
    expect(button).toMatchObject({ act: 'quarantine-follow', args: [id, 'observation'] });
    press('1', 'quarantine-follow', [id, 'observation'], { now, guildId: null, channelId: 'dm' });
    const [next] = store.own('club', '1');
    expect(next).toMatchObject({
      plan: 'observation',
      animals: 'a tang',
      tank: 'tub',
      helpers: ['2'],
      guildId: 'club',
    });
  });

  test('what is taken back is said in words, with its time', () => {
    const { store, send, press } = opened();
    send('1', 'start', { animals: 'a tang', plan: 'observation', zone: 'Europe/Lisbon' });
    const [row] = store.own('club', '1');
    press('1', 'quarantine-start', [String(row!.id)]);
    expect(said(send('1', 'undo'))).toContain('Nothing to take back');
    send('1', 'log', { reading: 'temperature', value: '26 C' });
    const answer = said(send('1', 'undo'));
    expect(answer).toContain('reading: temperature 26 °C');
    expect(answer).toContain(`<t:${NOW.getTime() / 1000}:f>`);
  });

  test('the list shows those that one helps with, once', () => {
    const { send } = opened();
    send('1', 'start', {
      animals: 'a tang',
      plan: 'observation',
      zone: 'Europe/Lisbon',
      helper: helper('2'),
      'seen-by': 'club',
    });
    const list = said(send('2', 'list'));
    expect(list).toContain('You help with');
    expect(list.match(/a tang/g)).toHaveLength(1);
    expect(said(send('3', 'list'))).toContain('Shown by the club');
  });
});
