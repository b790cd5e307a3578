import { conductivityFromSalinity, salinityFromCompensated } from '../practical-salinity.ts';
import {
  DEFAULT_SPECIFIC_GRAVITY_SCALE,
  salinityFromSpecificGravity,
  specificGravityFromSalinity,
  SPECIFIC_GRAVITY_SCALES,
  type SpecificGravityScale,
} from '../specific-gravity.ts';
import { found, plainTable, scaled, type FoundUnit, type Unit, type UnitTable } from './unit.ts';

/** Grams of salt in a kilogram of seawater of practical salinity 35. Source: Millero F.J. et al. (2008) Deep-Sea Res. I 55, 50-72. */
const G_PER_KG_AT_35 = 35.16504;

/** The temperature that meters with automatic compensation refer to. */
const COMPENSATED_TO_C = 25;

/** What a meter shows that refers conductivity to 25 °C, as hobby meters do. */
const COMPENSATED: Unit = {
  id: 'mS/cm',
  toSi: (conductivityMsPerCm) => {
    const read = salinityFromCompensated({ conductivityMsPerCm });
    return read.kind === 'salinity' ? read.practicalSalinity : NaN;
  },
  fromSi: (practicalSalinity) => {
    const read = conductivityFromSalinity({ practicalSalinity, temperatureC: COMPENSATED_TO_C });
    return read.kind === 'conductivity' ? read.conductivityMsPerCm : NaN;
  },
};

/** Specific gravity on the scale of an instrument, named by the two temperatures. */
export function specificGravityUnit(name: string, scale: SpecificGravityScale): Unit {
  return {
    id: `SG ${name}`,
    toSi: (specificGravity) => {
      const read = salinityFromSpecificGravity({ specificGravity, ...scale });
      return read.kind === 'salinity' ? read.practicalSalinity : NaN;
    },
    fromSi: (practicalSalinity) => {
      const read = specificGravityFromSalinity({ practicalSalinity, ...scale });
      return read.kind === 'specific-gravity' ? read.specificGravity : NaN;
    },
  };
}

const MARKED = Object.entries(SPECIFIC_GRAVITY_SCALES).map(([name, scale]) => specificGravityUnit(name, scale));
const USUAL = specificGravityUnit(
  DEFAULT_SPECIFIC_GRAVITY_SCALE,
  SPECIFIC_GRAVITY_SCALES[DEFAULT_SPECIFIC_GRAVITY_SCALE],
);

const microsiemens: Unit = {
  id: 'µS/cm',
  toSi: (amount) => COMPENSATED.toSi(amount / 1000),
  fromSi: (salinity) => COMPENSATED.fromSi(salinity) * 1000,
};

const TABLE = plainTable(
  [
    [scaled('ppt', 1), 'psu pss ppt ‰ o/oo parts/thousand practical'],
    [scaled('g/kg', 35 / G_PER_KG_AT_35), 'g/kg gkg'],
    [COMPENSATED, 'ms mscm ms/cm millisiemens', 'compensated-to-25'],
    [microsiemens, 'us us/cm', 'compensated-to-25'],
  ],
  'sal salinity',
);

/** "sg 60F", "25/25", "25C/60F": one temperature stands for both; above 40 without a letter it can only be °F. */
const GRAVITY =
  /^(?:sg|specificgravity)?(?:at|@)?(\d{1,2}(?:\.\d{1,2})?)([cf]?)(?:\/(\d{1,2}(?:\.\d{1,2})?)([cf]?))?(?:sg)?$/;

/** Sample and reference temperatures beyond this are slips. */
const WARMEST_C = 40;

function findGravity(folded: string): FoundUnit | null {
  if (/^(?:sg|specificgravity)$/.test(folded)) return found(USUAL, 'sg-at-25');
  const [, sample, sampleMark, reference = sample, ownMark] = GRAVITY.exec(folded) ?? [];
  if (sample === undefined || reference === undefined) return null;
  const referenceMark = reference === sample ? ownMark || sampleMark : ownMark;
  const letter = (mark: string | undefined, degrees: string) => mark || (Number(degrees) > WARMEST_C ? 'f' : 'c');
  const inC = (degrees: string, mark: string) => (mark === 'f' ? (Number(degrees) - 32) / 1.8 : Number(degrees));
  const marks = {
    sample: letter(sampleMark, sample),
    reference: letter(referenceMark, reference),
  };
  const scale = { sampleC: inC(sample, marks.sample), referenceC: inC(reference, marks.reference) };
  if (!Object.values(scale).every((celsius) => celsius >= 0 && celsius <= WARMEST_C)) return null;
  const named = (degrees: string, mark: string, other: string) =>
    mark === 'f' ? `${Number(degrees)}F` : `${Number(degrees)}${other === 'f' ? 'C' : ''}`;
  const name = `${named(sample, marks.sample, marks.reference)}/${named(reference, marks.reference, marks.sample)}`;
  return found(specificGravityUnit(name, scale));
}

/** Practical salinity. A specific gravity carries its two temperatures; without them it is taken as 25/25. */
export const SALINITY: UnitTable = {
  ...TABLE,
  find: (folded, context) => TABLE.find(folded, context) ?? findGravity(folded),
  all: (context) => [...TABLE.all(context), ...MARKED],
};
