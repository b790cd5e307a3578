import type { Faults } from '../../src/room/faults.ts';
import type { RestFault } from '../../src/room/room.ts';
import type { Dice } from './dice.ts';

/** Discord's way of failing: before anything happened, or after the message stood there. */
const KINDS: readonly Omit<RestFault, 'match' | 'times'>[] = [
  { kind: 'rate-limit', when: 'before-commit', ms: 100 },
  { kind: 'server-error', status: 500, when: 'before-commit' },
  { kind: 'server-error', status: 500, when: 'after-commit' },
  { kind: 'server-error', status: 503, when: 'before-commit' },
  { kind: 'hang-up', when: 'before-commit' },
  { kind: 'hang-up', when: 'after-commit' },
];
const POST_FAILS = 0.35;
const HISTORY_FAILS = 0.1;

/** Lays faults on some of the places, and on some look-ups of the history; gives their number. */
export function scriptFaults(faults: Faults, places: readonly string[], { falls, oneOf }: Dice): number {
  let laid = 0;
  const lay = (match: RegExp) => {
    faults.add({ ...oneOf(KINDS), match, times: 1 });
    laid += 1;
  };
  for (const place of places) {
    if (falls(POST_FAILS)) lay(new RegExp(`^POST /channels/${place}/messages$`));
    if (falls(HISTORY_FAILS)) lay(new RegExp(`^GET /channels/${place}/messages$`));
  }
  return laid;
}
