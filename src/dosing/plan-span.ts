import { readQuantity, type ReadQuantity } from '../../shared/quantity-text.ts';
import { wantedOf, type AskedQuantity } from '../calculators/quantity-option.ts';
import type { QuantityProblem } from '../calculators/quantity-problem.view.ts';
import { takenForGranted } from '../calculators/taken-for-granted.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { TankUnits } from '../tanks/tank.ts';

/** A reading, and where it shall go; `target` is null where only the reading was given. */
export type Span = { now: number; target: number | null; echo: Markdown; assumedUnit: boolean };

/** "7.2 to 8.5", "380-420", "1250 → 1350 ppm". A minus at the beginning is a sign and no dash. */
const TO = /^(.*?\d.*?)\s*(?:\bto\b|->|=>|→|>|–|—|\.{2,}|(?<=\d|[a-z])\s*-\s*(?=\d))\s*(\S.*)$/is;

/** Reads a span of two amounts. A unit that stands at one of them holds for both. */
export function readSpan(
  name: string,
  text: string,
  asked: AskedQuantity,
  units: TankUnits,
): { kind: 'span'; span: Span } | { kind: 'problem'; problem: QuantityProblem } {
  const [, first = text, second] = TO.exec(text) ?? [];
  const wanted = wantedOf(asked, units);
  const read = (part: string, unit = wanted.unit) =>
    readQuantity(part, { ...wanted, ...(unit === undefined ? {} : { unit }) });
  const alone = [first, second].map((part) => (part === undefined ? null : read(part)));
  const written = alone.find((each): each is ReadQuantity => each?.kind === 'read' && !each.assumedUnit);
  const [now, target] = [first, second].map((part, at) => {
    const before = alone[at] ?? null;
    return part !== undefined && before && written && (before.kind !== 'read' || before.assumedUnit)
      ? read(part, written.unit)
      : before;
  });
  for (const outcome of [now, target])
    if (outcome && outcome.kind !== 'read') return { kind: 'problem', problem: { name, outcome } };
  if (now?.kind !== 'read') throw new RangeError('a text without a first part');
  const end = target?.kind === 'read' ? target : null;
  const ends = [now, ...(end ? [end] : [])];
  // Which unit was taken is seen from the amounts; that it was taken is said once for all of them.
  const notes = ends.map((each) =>
    takenForGranted({ ...each, notes: each.notes.filter((note) => note !== 'unit-assumed') }),
  );
  const granted = [...new Set(notes.filter((note) => note !== ''))].join('; ');
  const said = end ? `${now.understood} → ${end.understood}` : now.understood;
  return {
    kind: 'span',
    span: {
      now: now.si,
      target: end?.si ?? null,
      echo: granted === '' ? md`${name}: ${said}` : md`${name}: ${said} (${granted})`,
      assumedUnit: written === undefined && ends.some(({ notes }) => notes.includes('unit-assumed')),
    },
  };
}
