// From the words to the start: who may, where, and when.
import { describe, expect, test } from 'vitest';
import { typedOrChosen } from '../../../src/quarantine/named-entry.ts';
import { base } from '../knowledge/real-base.ts';
import { buttonsOf, DAY_MS, fieldsOf, helper, NOW, opened, said, ZONE } from './quarantine-acts.ts';

describe('from the words to the start', () => {
  test('nothing that was given is lost on the way through the advice', () => {
    const { store, send, press, fill } = opened();
    send('1', 'start', {
      ...{ animals: 'three chromis', temperature: '78 F', tank: 'garage tub', helper: helper('2') },
      ...{ label: 'chelated 1.5-2.0 mg/L', began: 'yesterday' },
    });
    const [row] = store.own('club', '1');
    const id = String(row!.id);
    expect(row).toMatchObject({ plan: 'observation', fish: ['chromis'], tank: 'garage tub', helpers: ['2'] });
    press('1', 'quarantine-choose', [id, 'copper-bound']);
    // The label is there, so only the zone is asked for.
    const form = press('1', 'quarantine-start', [id]);
    expect(fieldsOf(form)).toEqual(['zone', 'time']);
    expect(said(fill('1', 'quarantine-begin', [id], { zone: 'Atlantis', time: '19:00' }))).toContain(
      'no such time zone',
    );
    expect(said(fill('1', 'quarantine-begin', [id], ZONE))).toContain('it runs');
    const begun = store.find(row!.id, 'club')!;
    expect(begun).toMatchObject({
      plan: 'copper-bound',
      option: 'thirty-days',
      zone: 'Europe/Lisbon',
      tank: 'garage tub',
    });
    const events = store.events(begun);
    const started = events.find(({ kind }) => kind === 'started');
    expect(started).toMatchObject({ option: 'thirty-days', copperLabel: { form: 'chelated', low: 1.5, high: 2 } });
    expect(started!.at).toEqual(new Date(NOW.getTime() - DAY_MS));
    const [reading] = events.filter(({ kind }) => kind === 'reading');
    expect(reading!.at).toEqual(started!.at);
    // Asked once: the next start opens no form.
    send('1', 'start', { animals: 'a clownfish', plan: 'observation' });
    const next = store.own('club', '1').find(({ animals }) => animals === 'a clownfish')!;
    expect(said(press('1', 'quarantine-start', [String(next.id)]))).toContain('it runs');
  });

  test('it begins with the yes where no beginning was named, and the reading with it', () => {
    const { store, send, press } = opened();
    send('1', 'start', { animals: 'a clownfish', plan: 'observation', temperature: '25 C', zone: 'Europe/Lisbon' });
    const [row] = store.own('club', '1');
    const later = new Date(NOW.getTime() + 2 * 3_600_000);
    const answer = press('1', 'quarantine-start', [String(row!.id)], { now: later });
    expect(said(answer)).toMatch(
      /\*\*First:\*\*[\s\S]*\*\*I remind you\*\* every day at 19:00[\s\S]*\*\*Earliest end:\*\*/,
    );
    expect(store.find(row!.id, 'club')!.begunAt).toEqual(later);
    const events = store.events(row!);
    const gone = events.flatMap((event) => (event.kind === 'undone' ? [event.eventId] : []));
    const readings = events.filter(({ id, kind }) => kind === 'reading' && !gone.includes(id));
    expect(readings.map(({ at }) => at)).toEqual([later]);
    // A second press starts nothing anew.
    press('1', 'quarantine-start', [String(row!.id)], { now: later });
    expect(store.events(row!).filter(({ kind }) => kind === 'started')).toHaveLength(1);
  });

  test('bound copper without a label asks for it, and refuses what no label says', () => {
    const { store, send, press, fill } = opened();
    send('1', 'start', { animals: 'three chromis', plan: 'copper-bound' });
    const id = String(store.own('club', '1')[0]!.id);
    expect(fieldsOf(press('1', 'quarantine-start', [id]))).toEqual(['form', 'label', 'zone', 'time']);
    const bad = fill('1', 'quarantine-begin', [id], { form: 'chelated', label: '15-20', ...ZONE });
    expect(said(bad)).toContain('I could not use that label');
    expect(buttonsOf(bad).map(({ act }) => act)).toEqual(['quarantine-start']);
    // The label is kept while the zone is asked for again.
    fill('1', 'quarantine-begin', [id], { form: 'chelated', label: '1.5-2', zone: 'nowhere', time: '19:00' });
    expect(fieldsOf(press('1', 'quarantine-start', [id]))).toEqual(['zone', 'time']);
  });

  test('a second medicine that began in the meantime is refused at the press', () => {
    const { store, send, press } = opened();
    const both = ['three chromis', 'a blue chromis'];
    for (const animals of both) send('1', 'start', { animals, plan: 'copper-ionic', zone: 'Europe/Lisbon' });
    const [one, other] = store.own('club', '1').map(({ id }) => String(id));
    expect(said(press('1', 'quarantine-start', [one!]))).toContain('it runs');
    expect(said(press('1', 'quarantine-start', [other!]))).toContain('One medicine at a time');
    expect(store.events(store.find(Number(other), 'club')!).some(({ kind }) => kind === 'started')).toBe(false);
    // With a vet’s word it begins, and the word is kept.
    send('1', 'start', { animals: both[1], plan: 'copper-ionic', vet: 'yes' });
    const led = store.own('club', '1').find(({ animals }) => animals === both[1])!;
    expect(led.id).not.toBe(Number(other));
    expect(said(press('1', 'quarantine-start', [String(led.id)]))).toContain('it runs');
    expect(store.events(led)).toContainEqual(expect.objectContaining({ kind: 'vet-said', text: 'directed by a vet' }));
  });

  test('a kind that is chosen from the list is kept, and looked at', () => {
    const { store, send, press } = opened();
    send('1', 'start', { animals: 'a wrasse with spots' });
    const id = String(store.own('club', '1')[0]!.id);
    const card = said(press('1', 'quarantine-kind', [id], {}, ['leopard-wrasse']));
    expect(card).toContain('Not for these fish');
    expect(store.own('club', '1')[0]!.fish).toEqual(['leopard-wrasse']);
    expect(said(press('1', 'quarantine-choose', [id, 'copper-ionic']))).toContain('is not for these fish');
  });

  test.each<[Record<string, unknown>, string]>([
    [{ helper: helper('9', true) }, 'Not a bot'],
    [{ helper: helper('1') }, 'You are their keeper'],
    [{ temperature: 'warm' }, 'I couldn’t use that'],
    [{ began: 'tomorrow' }, 'I could not read when it began'],
    [{ began: '2026-12-24' }, 'still to come'],
    [{ began: '2026-01-01' }, 'long ago'],
    [{ label: 'a lot' }, 'I could not use that label'],
    [{ option: 'second-tank' }, 'Which plan?'],
    [{ plan: 'observation', option: 'x' }, 'I don’t know that option'],
  ])('%o is refused kindly and begins nothing', (given, words) => {
    const { store, send } = opened();
    expect(said(send('1', 'start', { animals: 'a clownfish', ...given }))).toContain(words);
    expect(store.own('club', '1')).toEqual([]);
  });

  test('asked for twice, it waits once', () => {
    const { store, send } = opened();
    for (const animals of ['two clownfish', 'Two Clownfish', 'a tang']) send('1', 'start', { animals });
    expect(store.own('club', '1').map(({ animals }) => animals)).toEqual(['Two Clownfish', 'a tang']);
  });
});

describe('every button of a start', () => {
  const ACTS = ['start', 'choose', 'advice', 'for', 'kind', 'drop', 'call-off', 'follow'].map(
    (act) => `quarantine-${act}`,
  );
  const args: Record<string, string[]> = { 'quarantine-choose': ['observation'], 'quarantine-follow': ['observation'] };
  const chosen: Record<string, string[]> = { 'quarantine-for': ['new-fish'], 'quarantine-kind': ['clownfish'] };

  test.each(ACTS)('%s: a stranger, another club, a helper and a wrong number change nothing', (act) => {
    const { store, send, press } = opened();
    send('1', 'start', { animals: 'a clownfish', zone: 'Europe/Lisbon', helper: helper('2') });
    const [row] = store.own('club', '1');
    const before = JSON.stringify([row, store.events(row!)]);
    const rest = args[act] ?? [];
    const id = String(row!.id);
    expect(said(press('3', act, [id, ...rest], {}, chosen[act]))).toMatch(/Not yours|for their keeper/);
    expect(said(press('2', act, [id, ...rest], {}, chosen[act]))).toContain('for their keeper');
    expect(said(press('1', act, [id, ...rest], { guildId: 'elsewhere' }, chosen[act]))).toContain('Not yours');
    for (const wrong of ['0', 'NaN', '', '99999999999999999999'])
      expect(said(press('1', act, [wrong, ...rest], {}, chosen[act]))).toContain('Not yours');
    expect(JSON.stringify([store.find(row!.id, 'club'), store.events(row!)])).toBe(before);
  });

  test.each(ACTS.filter((act) => act !== 'quarantine-follow'))(
    '%s works in a direct message, and not once it is closed',
    (act) => {
      const { store, send, press } = opened();
      send('1', 'start', { animals: 'a clownfish', zone: 'Europe/Lisbon' });
      const [row] = store.own('club', '1');
      const direct = { guildId: null, channelId: 'dm' };
      const rest = [String(row!.id), ...(args[act] ?? [])];
      expect(said(press('1', act, rest, direct, chosen[act]))).not.toContain('Not yours');
      store.save({ ...row!, ended: { how: 'called-off', at: NOW } });
      expect(said(press('1', act, rest, direct, chosen[act]))).toContain('It is closed');
    },
  );

  test('the form is its keeper’s alone, and shut once it is closed', () => {
    const { store, send, fill } = opened();
    send('1', 'start', { animals: 'a clownfish', helper: helper('2') });
    const [row] = store.own('club', '1');
    for (const who of ['2', '3'])
      expect(said(fill(who, 'quarantine-begin', [String(row!.id)], ZONE))).toContain('Not yours');
    store.save({ ...row!, ended: { how: 'called-off', at: NOW } });
    expect(said(fill('1', 'quarantine-begin', [String(row!.id)], ZONE))).toContain('It is closed');
  });
});

describe('while the animals are typed', () => {
  const offered = (typed: string) => typedOrChosen(base.fish.values(), typed).map(({ value }) => value);

  test.each([
    ['two clo', ['two clo', 'two clownfish']],
    ['mandar', ['mandar', 'mandarinfish']],
  ])('“%s” stays as it is and goes on as %o', (typed, first) => {
    expect(
      offered(typed)
        .map((each) => each.toLowerCase())
        .slice(0, 2),
    ).toEqual(first);
  });

  test('every offer can be sent: at most 25, each of 1 to 80 characters', () => {
    for (const typed of ['', ' ', 'a', 'two', 'x'.repeat(200), `${'x'.repeat(78)} c`, '🐠'.repeat(60)]) {
      expect(offered(typed).length).toBeLessThanOrEqual(25);
      for (const each of offered(typed)) expect(each.length > 0 && each.length <= 80, each).toBe(true);
    }
  });
});
