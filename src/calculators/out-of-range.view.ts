import type { Quantity } from '../../shared/quantity-text.ts';
import type { OutOfRange } from '../../shared/range.ts';
import { shortly } from '../../shared/units/figures.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { inUnits } from './units-in-words.ts';

/** The unit at the end of a key, and how its values are said; the longest first. */
const ENDINGS: readonly (readonly [ending: RegExp, said: Quantity | string])[] = [
  [/DkhPerDay$/, 'alkalinity'],
  [/MgPerLPerDay$/, 'concentration'],
  [/LPerDay$/, 'volume'],
  [/MgPerL$/, 'concentration'],
  [/KgPerL$/, ' kg/L'],
  [/GPerL$/, 'strength'],
  [/LPerH$/, 'flow'],
  [/PerH$/, ' an hour'],
  [/MsPerCm$/, 'conductivity'],
  [/Umol(?:PerM2S?)?$/, 'light'],
  [/Dkh$/, 'alkalinity'],
  [/Cm$/, 'length'],
  [/L$/, 'volume'],
  [/G$/, 'mass'],
  [/H$/, 'duration'],
  [/C$/, 'temperature'],
];
const QUANTITIES: ReadonlySet<string> = new Set<Quantity>([
  'volume',
  'mass',
  'alkalinity',
  'temperature',
  'concentration',
  'strength',
  'conductivity',
  'light',
  'flow',
  'length',
  'duration',
]);
const isQuantity = (said: string): said is Quantity => QUANTITIES.has(said);

/** A value that a calculator does not reach: what it was, and how far it goes, in the member's units. */
export function outOfRangeLine({ quantity, given, least, most }: OutOfRange, units: TankUnits): Markdown {
  const ending = ENDINGS.find(([pattern]) => pattern.test(quantity));
  const [pattern, unit = ''] = ending ?? [/$/, ''];
  const aDay = quantity.endsWith('PerDay') ? ' a day' : '';
  const name = `${inWords(quantity.replace(pattern, ''))}${aDay}`;
  const said = (value: number) => {
    if (!Number.isFinite(value)) return 'no number';
    if (/^practicalSalinity$|salinity$/i.test(quantity)) return inUnits(value, 'salinity', units);
    return isQuantity(unit) ? inUnits(value, unit, units) : `${shortly(value)}${unit}`;
  };
  return md`- **${name}**: I got ${said(given)}. I can answer for ${said(least)} to ${said(most)}.`;
}

const inWords = (key: string) => key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`).trim() || 'value';

/** The same as a message of its own. Private. */
export function outOfRangeView(refused: OutOfRange, units: TankUnits): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      { kind: 'text', text: md`## That is outside of what I can answer for` },
      { kind: 'text', text: outOfRangeLine(refused, units) },
      { kind: 'text', text: md`Nothing was changed. Correct it and send the command again.` },
    ],
  };
}
