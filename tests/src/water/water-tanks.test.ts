import { describe, expect, test } from 'vitest';
import { titleOf } from '../../set-up-club.ts';
import { asks, openWithTanks } from './ask-water.ts';

const GALLONS = { volume: 'US gal', temperature: '°F', alkalinity: 'dKH', salinity: 'SG' } as const;

describe('a tank', () => {
  test('of which there is one is meant without a name, and the answer says what was taken from it', async () => {
    const { actor } = await openWithTanks({ Ana: [{ name: 'Reef', netVolumeL: 302.8, units: GALLONS }] });
    const reply = await asks(actor('Ana'), 'flow', { pump: '800 gph' });
    expect(reply.private).toBe(true);
    expect(reply.text).toContain('volume: 80 US gal, as kept for **Reef**');
    expect(titleOf(reply)).toBe('7 tank volumes an hour');
    const salt = await asks(actor('Ana'), 'salinity', { target: '1.0256', now: '1.0264' });
    expect(titleOf(salt)).toMatch(/^Swap .* US gal for fresh water/);
    expect(salt.text).toContain('temperature: 77.0 °F, as kept for **Reef**');
  });

  test('lends its salinity to a correction that gives none', async () => {
    const { actor } = await openWithTanks({ Ana: [{ practicalSalinity: 36.5 }] });
    const reply = await asks(actor('Ana'), 'salinity', { target: '35' });
    expect(reply.text).toContain('now: 36.5, as kept for **Reef**');
  });

  test('is asked for where there are several, and offered while it is typed', async () => {
    const { actor } = await openWithTanks({ Ana: [{ name: 'Reef' }, { name: 'Nano', netVolumeL: 40 }] });
    const ana = actor('Ana');
    const asked = await asks(ana, 'flow', { pump: '3000 L/h' });
    expect(titleOf(asked)).toBe('Which of your tanks?');
    expect(asked.text).toContain('Nano');
    const nano = await asks(ana, 'flow', { pump: '400 L/h', tank: 'nan' });
    expect(nano.text).toContain('volume: 40 L, as kept for **Nano**');
    const unknown = await asks(ana, 'flow', { pump: '400 L/h', tank: 'Pond' });
    expect(titleOf(unknown)).toBe('I don’t know that tank');
  });

  test('gives way to a volume that was typed', async () => {
    const { actor } = await openWithTanks({ Ana: [{ netVolumeL: 40 }] });
    const reply = await asks(actor('Ana'), 'flow', { pump: '3000 L/h', volume: '300 L' });
    expect(reply.text).not.toContain('as kept for');
  });

  test('is not needed for ammonia, yet its temperature and salinity are used', async () => {
    const { actor } = await openWithTanks({ Ana: [{ temperatureC: 28, practicalSalinity: 34 }] });
    const reply = await asks(actor('Ana'), 'ammonia', { total: '0.25 ppm NH3-N', ph: '8.4' });
    expect(titleOf(reply)).toContain('0.040 mg/L');
    expect(reply.text).toContain('temperature: 28.0 °C, as kept for **Reef**');
  });
});

describe('for another member', () => {
  const both = { Ana: [], Ben: [{ name: 'Display', netVolumeL: 250, visibility: 'club' as const }] };

  test('the answer is for everybody, names them once, and waits to be checked', async () => {
    const { actor, room } = await openWithTanks(both);
    const ana = actor('Ana');
    const memberId = room.world.members.named('Ben')!.id;
    const { replies, error } = await ana.slash('water top-off', [
      { name: 'lost', value: '6 L' },
      { name: 'for', value: 'Ben' },
    ]);
    expect(error).toBeUndefined();
    const [reply] = replies;
    expect(reply).toMatchObject({ private: false, text: expect.stringContaining('Display') });
    expect(reply!.text).toContain('as kept for **Display**');
    expect(reply!.buttons.map(({ label }) => label)).toContain('Check this');
    expect(room.world.pings.filter(({ memberIds }) => memberIds.includes(memberId))).toHaveLength(1);
  });

  test('what they do not share is not used', async () => {
    const { actor } = await openWithTanks({ Ana: [], Ben: [{ visibility: 'me' }] });
    const ana = actor('Ana');
    const { replies } = await ana.slash('water top-off', [
      { name: 'lost', value: '6 L' },
      { name: 'for', value: 'Ben' },
    ]);
    expect(replies[0]!.private).toBe(true);
    expect(replies[0]!.text).toContain('no tank that you may see');
  });
});
