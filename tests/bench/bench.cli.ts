import { benchCalculators } from './calculators.bench.ts';
import { tableOf } from './figures.ts';
import { benchFinding } from './finding.bench.ts';
import { benchFold } from './fold.bench.ts';
import { benchIdentifying } from './identifying.bench.ts';
import { benchKnowledge } from './knowledge.bench.ts';
import { benchOutbox } from './outbox.bench.ts';
import { benchRings } from './rings.bench.ts';
import { benchRoundTrip } from './round-trip.bench.ts';
import { benchStart } from './start.bench.ts';
import { benchSums } from './sums.bench.ts';
import { benchFinds } from './swaps.bench.ts';

// Every ratio is between two things measured in this one run on this machine; the milliseconds only show the size.
const rows = [
  ...benchFinding(),
  ...benchSums(),
  ...benchFold(),
  ...benchFinds(),
  ...(await benchCalculators()),
  ...(await benchIdentifying()),
  ...benchKnowledge(),
  ...(await benchOutbox()),
  ...(await benchRings()),
  ...(await benchStart()),
  ...(await benchRoundTrip()),
];
console.log(tableOf(rows));
process.exit(rows.some(({ met }) => met === false) ? 1 : 0);
