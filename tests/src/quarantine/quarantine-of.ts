import type { Quarantine } from '../../../src/quarantine/quarantine.ts';
import { START, ZONE } from './fold-of.ts';

/** A quarantine of Nell's, with what a test says of it. */
export const quarantineOf = (said: Partial<Quarantine> = {}): Quarantine => ({
  id: 1,
  guildId: '1',
  memberId: '2',
  channelId: '3',
  animals: 'two clownfish',
  fish: [],
  plan: 'observation',
  option: null,
  tank: null,
  copperLabel: null,
  helpers: [],
  zone: ZONE,
  timeOfDay: '19:00',
  visibility: 'me',
  begunAt: START,
  follows: null,
  ended: null,
  ...said,
});
