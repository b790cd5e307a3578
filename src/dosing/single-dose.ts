import { doseFor } from '../../shared/dose.ts';
import { splitOverDays } from '../../shared/dose-days.ts';
import type { OutOfRange } from '../../shared/range.ts';
import type { Ion } from '../../shared/reagent.ts';
import { sideEffects, type SideEffects } from '../../shared/side-effects.ts';
import { stockFor } from '../../shared/stock.ts';
import { amountInterval, kitCanTell, landingInterval, type Interval } from '../../shared/uncertainty.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Reagent } from '../knowledge/reagent.ts';

export type SingleDoseInput = {
  parameter: Parameter;
  reagent: Reagent;
  /** In the parameter's unit. */
  now: number;
  target: number;
  volumeL: number;
  /** As a share, half of a 95 % interval. */
  volumeError: number;
  /** Either way, in the parameter's unit. */
  kitError: number;
  /** Grams of the pure reagent in a gram of what is weighed. */
  purity: number;
  stockGPerL: number | null;
  practicalSalinity: number;
  temperatureC: number;
};

export type SingleDose =
  | {
      kind: 'dose';
      rise: number;
      massG: number;
      /** Span of the whole amount, in grams. */
      massSpanG: Interval;
      /** Where the water lands, in the parameter's unit. */
      landing: Interval;
      /** The kit can tell that something is missing at all. */
      kitTells: boolean;
      days: number;
      massGPerDay: number;
      risePerDay: number;
      capPerDay: number;
      stock: { volumeMl: number; volumeMlPerDay: number; gPerL: number } | null;
      effects: SideEffects;
    }
  | { kind: 'not-needed' }
  | { kind: 'cannot-lower'; fall: number }
  | { kind: 'will-not-dissolve'; stockGPerL: number; mostGPerL: number; temperatureC: number }
  | OutOfRange;

/** A stock stands in a room; where solubility falls with the cold, the cooler end of rooms is the safe one. */
const ROOM_C = 20;

/**
 * One reagent, one parameter: how much, over how many days, and what else it does.
 *
 * Units, source and error: see `doseFor`, `splitOverDays`, `sideEffects`, `stockFor` and `amountInterval` in shared/.
 *
 * @throws RangeError when the reagent does not bring the parameter, or the parameter has no daily cap: both are mistakes
 * in the knowledge base that its check keeps out.
 */
export function singleDose(input: SingleDoseInput): SingleDose {
  const { parameter, reagent, now, target, volumeL, volumeError, kitError, purity, stockGPerL } = input;
  const { formula } = reagent;
  const rise = rounded(target - now);
  const asked =
    parameter.id === 'alkalinity' ? { alkalinityRiseDkh: rise } : { ion: ionOf(parameter), riseMgPerL: rise };
  const dose = doseFor({ formula, volumeL, purity, ...asked });
  if (dose.kind === 'does-not-bring') throw new RangeError(`${reagent.id} does not bring ${parameter.id}`);
  if (dose.kind !== 'dose') return dose;
  const capPerDay = parameter.riseADay?.low;
  if (capPerDay === undefined) throw new RangeError(`knowledge/parameters/${parameter.id}.yaml has no riseADay`);
  const split = splitOverDays({ rise, capPerDay });
  if (split.kind !== 'days') return split;
  const { massG } = dose;
  const poured =
    stockGPerL === null
      ? null
      : stockFor({ formula, massG, stockGPerL, temperatureC: ROOM_C, solubility: reagent.solubility });
  if (poured && poured.kind !== 'stock') return poured;
  const effects = sideEffects({ ...input, formula, massG });
  if (effects.kind !== 'effects') return effects;
  const doubts = { rise, kitError, volumeError };
  return {
    kind: 'dose',
    rise,
    massG,
    massSpanG: amountInterval({ amount: massG, ...doubts }),
    landing: landingInterval({ target, ...doubts }),
    kitTells: kitCanTell(doubts),
    days: split.days,
    massGPerDay: massG / split.days,
    risePerDay: split.risePerDay,
    capPerDay,
    stock:
      poured && stockGPerL !== null
        ? { volumeMl: poured.volumeMl, volumeMlPerDay: poured.volumeMl / split.days, gPerL: stockGPerL }
        : null,
    effects,
  };
}

/** 8.2 less 7.2 is 1 and no trillionth more, which would make a second day of its own. */
const rounded = (difference: number): number => Math.round(difference * 1e9) / 1e9;

const IONS: Readonly<Record<string, Ion>> = {
  Ca: 'Ca',
  Mg: 'Mg',
  K: 'K',
  Sr: 'Sr',
  I: 'I',
  NO3: 'NO3',
  PO4: 'PO4',
};

/** The ion that a parameter counts. @throws RangeError when its entry names none that can be dosed. */
export function ionOf({ id, species = '' }: Parameter): Ion {
  const ion = IONS[species];
  if (!ion) throw new RangeError(`knowledge/parameters/${id}.yaml counts "${species}", which no dose raises`);
  return ion;
}
