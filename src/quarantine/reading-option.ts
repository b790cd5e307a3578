import { readQuantity } from '../../shared/quantity-text.ts';
import { md, type MessageView } from '../discord/message-view.ts';
import type { Reading } from './plan-event.ts';
import { saysView } from './start.view.ts';

export type ReadReading =
  | { kind: 'read'; reading: Reading }
  | { kind: 'missing' }
  | { kind: 'form-missing' }
  | { kind: 'unread'; came: string; allowed: string; example: string };

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
  const read = readQuantity(text, wanted);
  if (read.kind !== 'read') return { kind: 'unread', came: read.came, allowed: read.allowed, example: read.example };
  const value = read.si;
  switch (what) {
    case 'temperature':
      return { kind: 'read', reading: { parameter: 'temperature', value, unit: '°C' } };
    case 'salinity':
      return { kind: 'read', reading: { parameter: 'salinity', value, unit: 'ppt' } };
    case 'copper':
      return form === undefined
        ? { kind: 'form-missing' }
        : { kind: 'read', reading: { parameter: 'copper', value, unit: 'mg/L Cu', form } };
    case 'ammonia':
      return { kind: 'read', reading: { parameter: 'ammonia', value, unit: 'mg/L NH3-N' } };
    case 'nitrite':
      return { kind: 'read', reading: { parameter: 'nitrite', value, unit: 'mg/L NO2' } };
    default:
      return { kind: 'read', reading: { parameter: 'ph', value, unit: 'pH' } };
  }
}

const WANTED: Readonly<Record<string, Parameters<typeof readQuantity>[1]>> = {
  temperature: { quantity: 'temperature', most: 40, example: '78 F' },
  salinity: { quantity: 'salinity', example: '35 ppt' },
  copper: { quantity: 'concentration', species: 'Cu', most: 10, example: '0.17 mg/L' },
  ammonia: { quantity: 'concentration', species: 'NH3-N', example: '0.25 ppm' },
  nitrite: { quantity: 'concentration', species: 'NO2', example: '0.5 ppm' },
  ph: { quantity: 'ph', least: 5, most: 10, example: '8.1' },
};

export function readingTroubleView(trouble: Exclude<ReadReading, { kind: 'read' }>): MessageView {
  switch (trouble.kind) {
    case 'missing':
      return saysView(
        'What shall I note?',
        md`Give **reading:** and **value:**, such as **reading: temperature**, **value: 78 F**; or **happened:**.`,
      );
    case 'form-missing':
      return saysView(
        'Which form of copper?',
        md`Add **form:** ionic, chelated or amine. The numbers of the forms differ tenfold, so without it I keep nothing.`,
      );
    case 'unread':
      return saysView(
        'I couldn’t use that',
        md`I read “${trouble.came}”. Allowed: ${trouble.allowed}. For example: **${trouble.example}**. Nothing was noted.`,
      );
  }
}
