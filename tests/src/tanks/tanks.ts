import type { Tank } from '../../../src/tanks/tank.ts';
import { DEFAULT_UNITS } from '../../../src/tanks/tank.ts';
import type { NewLogEntry } from '../../../src/tanks/tank-log.ts';

export const NOON = new Date('2026-11-25T12:00:00Z');
export const daysLater = (days: number) => new Date(NOON.getTime() + days * 86_400_000);

/** A tank of Ana's in the first club, as it would be given; what a test is about is put in its place. */
export const aTank = (given: Partial<Omit<Tank, 'id'>> = {}): Omit<Tank, 'id'> => ({
  guildId: 'one',
  memberId: 'ana',
  name: 'Reef',
  purpose: 'display',
  netVolumeL: 200,
  volumeError: 0.1,
  practicalSalinity: null,
  temperatureC: null,
  units: DEFAULT_UNITS,
  visibility: 'me',
  ...given,
});

export const aReading = (value: number, days = 0, parameter = 'alkalinity'): NewLogEntry => ({
  kind: 'reading',
  parameter,
  value,
  kit: null,
  kitError: null,
  at: daysLater(days),
});
