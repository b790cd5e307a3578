import { readQuantity } from '../../shared/quantity-text.ts';
import { takenForGranted } from '../calculators/taken-for-granted.ts';
import { md, type MessageView } from '../discord/message-view.ts';
import type { Reading } from './plan-event.ts';
import { saysView } from './start.view.ts';

export type ReadReading =
  | { kind: 'read'; reading: Reading; understood: string; granted: string }
  | { kind: 'missing' }
  | { kind: 'form-missing' }
  | { kind: 'unread'; came: string; allowed: string; example: string; perhaps: string | null };

/** A reading in a member's own words, with its unit, as an event of the plan keeps it. */
export function readingIn(
  what: string | undefined,
  text: string | undefined,
  form: 'ionic' | 'chelated' | 'amine' | undefined,
): ReadReading {
  if (what === undefined || text === undefined) return { kind: 'missing' };
  if (what === 'copper' && form === undefined) return { kind: 'form-missing' };
  const wanted = WANTED[what];
  if (!wanted) return { kind: 'missing' };
  // Copper sulfate is a quarter copper; the unit is kept as it was written.
  const asSulfate = what === 'copper' && SULFATE.test(text);
  const read = readQuantity(asSulfate ? text.replace(SULFATE, ' ') : text, wanted);
  if (read.kind !== 'read') {
    const { came, allowed, example } = read;
    const perhaps = read.kind === 'out-of-range' ? read.perhaps : null;
    return { kind: 'unread', came: asSulfate ? text.slice(0, 40) : came, allowed, example, perhaps };
  }
  const reading = readingOf(what, read.si, form, asSulfate);
  if (!reading) return { kind: 'form-missing' };
  const understood = asSulfate ? `${text.trim()} = ${Math.round(read.si * 254.5) / 1000} mg/L copper` : read.understood;
  return {
    kind: 'read',
    reading,
    understood,
    granted: asSulfate ? 'copper sulfate taken as the pentahydrate that is sold' : takenForGranted(read),
  };
}

/** Sulfate is taken as the pentahydrate that is sold. */
const SULFATE =
  /\s*(?:(?:as|of)\s+)?(?:(?:copper|cu)\s*(?:\(?ii\)?\s*)?sul(?:f|ph)ate|cuso4)(?:\s*[·.*x]?\s*5\s*h2o|\s+pentahydrate)?\s*/i;

function readingOf(
  what: string,
  value: number,
  form: 'ionic' | 'chelated' | 'amine' | undefined,
  asSulfate: boolean,
): Reading | null {
  switch (what) {
    case 'temperature':
      return { parameter: 'temperature', value, unit: '°C' };
    case 'salinity':
      return { parameter: 'salinity', value, unit: 'ppt' };
    case 'copper':
      return form === undefined
        ? null
        : { parameter: 'copper', value, unit: asSulfate ? 'mg/L CuSO4·5H2O' : 'mg/L Cu', form };
    case 'ammonia':
      return { parameter: 'ammonia', value, unit: 'mg/L NH3-N' };
    case 'nitrite':
      return { parameter: 'nitrite', value, unit: 'mg/L NO2' };
    default:
      return { parameter: 'ph', value, unit: 'pH' };
  }
}

const WANTED: Readonly<Record<string, Parameters<typeof readQuantity>[1]>> = {
  temperature: { quantity: 'temperature', most: 40, example: '78 F' },
  salinity: { quantity: 'salinity', example: '35 ppt' },
  copper: { quantity: 'concentration', species: 'Cu', most: 10, example: '0.17 mg/L' },
  ammonia: { quantity: 'concentration', species: 'NH3-N', most: 20, example: '0.25 mg/L NH3-N' },
  nitrite: { quantity: 'concentration', species: 'NO2', example: '0.5 ppm' },
  ph: { quantity: 'ph', least: 5, most: 10, example: '8.1' },
};

export function readingTroubleView(trouble: Exclude<ReadReading, { kind: 'read' }>): MessageView {
  switch (trouble.kind) {
    case 'missing':
      return saysView(
        'What shall I note?',
        md`Give **reading:** and **value:**, such as **reading: temperature**, **value: 78 F**; or **happened:**, **step:**, or a **note:** in your own words.`,
      );
    case 'form-missing':
      return saysView(
        'Which form of copper?',
        md`Add **form:** ionic, chelated or amine. The numbers of the forms differ tenfold, so without it I keep nothing.`,
      );
    case 'unread':
      return saysView(
        'I couldn’t use that',
        md`I read “${trouble.came}”. Allowed: ${trouble.allowed}.${trouble.perhaps === null ? '' : ` Did you mean ${trouble.perhaps}?`} For example: **${trouble.example}**. Nothing was noted.`,
      );
  }
}

const NAMES: Readonly<Record<Reading['parameter'], string>> = {
  temperature: 'Temperature',
  salinity: 'Salinity',
  copper: 'Copper',
  ammonia: 'Ammonia',
  nitrite: 'Nitrite',
  ph: 'pH',
};

/** "Copper 0.17 mg/L Cu, ionic". */
export function readingInWords(reading: Reading): string {
  const { parameter, value, unit } = reading;
  const shown = `${NAMES[parameter]} ${Number(value.toPrecision(4))}`;
  if (parameter === 'ph') return shown;
  return parameter === 'copper' ? `${shown} ${unit}, ${reading.form}` : `${shown} ${unit}`;
}
