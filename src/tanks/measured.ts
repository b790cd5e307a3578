import { readQuantity, type QuantityOutcome, type Quantity, type Species } from '../../shared/quantity-text.ts';
import { inUnits, usualUnit, gallonOf } from '../calculators/units-in-words.ts';
import type { Choice } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { raisedAs, type Parameter } from '../knowledge/parameter.ts';
import { SPECIES } from '../../shared/units/unit.ts';
import type { TankPurpose, TankUnits } from './tank.ts';

const QUANTITIES: Partial<Record<Parameter['unit'], Exclude<Quantity, 'concentration'>>> = {
  dKH: 'alkalinity',
  psu: 'salinity',
  '°C': 'temperature',
  pH: 'ph',
  'µmol/m²/s': 'light',
};
type MeasuredAs =
  { quantity: 'concentration'; species: Species } | { quantity: Exclude<Quantity, 'concentration'>; species?: never };

const isSpecies = (text: string | undefined): text is Species => SPECIES.some((species) => species === text);

/** As what a parameter is measured; null for what no test shows, such as flow, or free ammonia, which is computed. */
export function measuredAs({ unit, species }: Parameter): MeasuredAs | null {
  if (unit === 'mg/L') return isSpecies(species) ? { quantity: 'concentration', species } : null;
  const quantity = QUANTITIES[unit];
  return quantity ? { quantity } : null;
}

/** Whether a tank uses it up or gathers it, so that a rate a day says something. */
export const isUsedUp = ({ unit, form }: Parameter): boolean => (unit === 'dKH' || unit === 'mg/L') && !form;

/** Which parameter a text means. `which`: it could be several that must not be mixed up. */
export type NamedParameter =
  | { kind: 'parameter'; parameter: Parameter; as: MeasuredAs }
  | { kind: 'which'; parameters: readonly Parameter[] }
  | { kind: 'not-measured'; parameter: Parameter }
  | { kind: 'unknown'; typed: string };

type Parameters = Pick<KnowledgeBase, 'parameters'>;
const folded = (text: string) =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** A parameter by its id, name or alias: "alk", "NO3", "Copper, ionic". */
export function parameterNamed({ parameters }: Parameters, typed: string): NamedParameter {
  const key = folded(typed);
  const all = [...parameters.values()];
  const found = all.find(({ id, name, aliases }) => [id, name, ...aliases].some((each) => folded(each) === key));
  if (found) {
    const as = measuredAs(found);
    return as ? { kind: 'parameter', parameter: found, as } : { kind: 'not-measured', parameter: found };
  }
  const forms = all.filter((each) => each.form && folded(raisedAs(each)) === key);
  return forms.length > 0 ? { kind: 'which', parameters: forms } : { kind: 'unknown', typed };
}

/** Everything that can be measured, for a list of choices. Forms of copper belong into quarantine and stand last. */
export function parameterChoices({ parameters }: Parameters, typed: string, most = 25): Choice[] {
  const key = folded(typed);
  return [...parameters.values()]
    .filter((each) => measuredAs(each) !== null)
    .filter(({ id, name, aliases }) => [id, name, ...aliases].some((each) => folded(each).includes(key)))
    .sort((one, other) => rank(one, key) - rank(other, key))
    .slice(0, most)
    .map(({ id, name }) => ({ name, value: id }));
}

/** What begins as typed comes first, what only quarantine tanks have last. */
const rank = ({ name, form }: Parameter, key: string): number =>
  (form === undefined ? 0 : 2) + (folded(name).startsWith(key) ? 0 : 1);

/** Copper and its like are only ever in quarantine tanks. */
export const belongsInto = ({ form }: Parameter, purpose: TankPurpose): boolean =>
  form === undefined || purpose === 'quarantine';

/** Reads a value of a parameter as a member with these units types it. */
export function readValue(text: string, as: MeasuredAs, units: TankUnits): QuantityOutcome {
  const unit = usualUnit(as.quantity, units);
  return readQuantity(text, { ...as, gallon: gallonOf(units), ...(unit === null ? {} : { unit }) });
}

/** A value in the units of the tank: "8.2 dKH", "420 mg/L". */
export function valueIn(parameter: Parameter, value: number, units: TankUnits): string {
  const as = measuredAs(parameter);
  return as ? inUnits(value, as.quantity, units) : `${value} ${parameter.unit}`;
}

/** A parameter with its value: "Alkalinity 8.2 dKH", "pH 8.10". */
export function readingIn(parameter: Parameter, value: number, units: TankUnits): string {
  const said = valueIn(parameter, value, units);
  return said.startsWith(`${parameter.name} `) ? said : `${parameter.name} ${said}`;
}
