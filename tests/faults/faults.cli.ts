import { runCell, type Cell, type CellPlan } from './cell.ts';
import { hungReply, lateFinisher, lockedDatabase, secondProcess, type Check } from './process-checks.ts';
import { tableOf } from './table.ts';

const CELLS: readonly CellPlan[] = [
  { name: 'no faults', kills: false, http: false, downtime: false, seed: 1 },
  { name: 'kills', kills: true, http: false, downtime: false, seed: 2 },
  { name: 'HTTP faults', kills: false, http: true, downtime: false, seed: 3 },
  { name: 'both', kills: true, http: true, downtime: false, seed: 4 },
  { name: 'both + downtime', kills: true, http: true, downtime: true, seed: 5 },
];
const only = process.argv[2];

const cells: Cell[] = [];
for (const plan of CELLS) if (only === undefined || plan.name === only) cells.push(await runCell(plan));

const isWhole = ({ lost, doubled, early, integrity, breaches }: Cell) =>
  lost === 0 && doubled === 0 && early === 0 && integrity === 'ok' && breaches.length === 0;
const HEAD = ['200 reminders', 'lost', 'doubled', 'kills', 'faults', 'look-ups', 'by nonce', 'too early', 'file', 's'];
console.log(
  tableOf([
    HEAD,
    ...cells.map(({ name, lost, doubled, kills, faults, lookUps, deduped, early, integrity, seconds }) =>
      [name, lost, doubled, kills, faults, lookUps, deduped, early, integrity, seconds.toFixed(0)].map(String),
    ),
  ]),
);
for (const { name, breaches } of cells) for (const breach of breaches) console.log(`${name}: ${breach}`);

const checks: Check[] = [];
for (const check of [secondProcess, lockedDatabase, lateFinisher, hungReply])
  if (only === undefined || only === 'processes') checks.push(await check());
for (const { what, held, seen } of checks) console.log(`${held ? 'held' : 'MISSED'}  ${what}: ${seen}`);

const isGood = cells.every(isWhole) && checks.every(({ held }) => held);
console.log(isGood ? 'Nothing was lost and nothing came twice.' : 'MISSED: see the table.');
process.exit(isGood ? 0 : 1);
