import { describe, expect, test } from 'vitest';
import { FIGURE_USES, type Figure } from '../../../src/knowledge/parameter.ts';
import { numberIn, readReference, textIn, type Row } from '../../reference/read-csv.ts';
import { base } from './real-base.ts';

// Where every rule of practice.csv stands in knowledge/parameters. `a.b.low=high`: the low end of figure b of a is the
// row's high end; without ends both ends have to be the row's.
const STANDS: Readonly<Record<string, string>> = {
  'alkalinity: natural seawater S=35': 'alkalinity.natural',
  'alkalinity: target range, mixed reef': 'alkalinity.target',
  // The default cap is the upper end of the routine row, what is never passed that of the correction row.
  'alkalinity: largest rise in one day, routine': 'alkalinity.riseADay.low=high',
  'alkalinity: largest rise in one day, correction': 'alkalinity.riseADay',
  'alkalinity: pH jump per addition': 'alkalinity.more/ph-jump',
  'alkalinity: warn below': 'alkalinity.warnBelow',
  'alkalinity: warn above': 'alkalinity.warnAbove',
  'alkalinity: urgent below': 'alkalinity.urgentBelow',
  'alkalinity: small-polyp tanks with low nutrients, stay under': 'alkalinity.more/low-nutrient-ceiling',
  'alkalinity: largest fall in one day': 'alkalinity.fallADay',
  // The row gives mg/kg and mg/L; the entry is in mg/L.
  'calcium: natural seawater S=35': 'calcium.natural.low=high',
  'calcium: target range': 'calcium.target',
  'calcium: largest rise in one day': 'calcium.riseADay',
  'calcium: warn outside': 'calcium.warnBelow.high=low calcium.warnAbove.low=high',
  'magnesium: natural seawater S=35': 'magnesium.natural.low=high',
  'magnesium: target range': 'magnesium.target',
  // The default cap of the row is its upper end.
  'magnesium: largest rise in one day': 'magnesium.riseADay.low=high magnesium.riseADay.high=high',
  'magnesium: warn outside': 'magnesium.warnBelow.high=low magnesium.warnAbove.low=high',
  'potassium: natural and target': 'potassium.target',
  'potassium: largest rise in one day': 'potassium.riseADay',
  'strontium: natural and target': 'strontium.target',
  'strontium: largest rise in one day': 'strontium.riseADay',
  'iodine: natural total iodine': 'iodide.natural',
  'iodine: largest rise in one day': 'iodide.riseADay',
  'nitrate: reef aquarium target': 'nitrate.target',
  'nitrate: largest fall in one day': 'nitrate.fallADay',
  'nitrate: warn: not detectable': 'nitrate.warnBelow.high=high',
  'nitrate: warn above': 'nitrate.warnAbove',
  'phosphate: reef aquarium target': 'phosphate.target',
  'phosphate: largest fall in one day': 'phosphate.fallADay',
  'phosphate: warn: not detectable': 'phosphate.warnBelow.high=high',
  'phosphate: warn above': 'phosphate.warnAbove',
  'salinity: natural reefs, mean': 'salinity.natural',
  'salinity: reef aquarium target': 'salinity.target',
  'salinity: largest change with corals or invertebrates': 'salinity.riseADay.low=high salinity.fallADay.low=high',
  'salinity: warn outside, reef tank': 'salinity.warnBelow.high=low salinity.warnAbove.low=high',
  'salinity: lowering for fish in hyposalinity': 'salinity.more/hyposalinity-drop-a-step',
  'salinity: raising for fish after hyposalinity': 'salinity.more/hyposalinity-rise-a-day',
  'temperature: reef aquarium target': 'temperature.target',
  'temperature: largest change in one day': 'temperature.riseADay temperature.fallADay',
  'temperature: act above': 'temperature.warnAbove',
  'temperature: emergency above': 'temperature.urgentAbove',
  'temperature: act below': 'temperature.warnBelow',
  'temperature: emergency below': 'temperature.urgentBelow',
  'temperature: what bleaches reef corals': 'temperature.more/bleaching',
  'pH: daily range accepted': 'ph.target',
  'pH: act outside': 'ph.warnBelow.high=low ph.warnAbove.low=high',
  'hyposalinity: treatment level, specific gravity': 'salinity.more/hyposalinity-level-sg',
  'hyposalinity: treatment level, salinity': 'salinity.more/hyposalinity-level',
  'hyposalinity: duration at level': 'salinity.more/hyposalinity-days',
  'copper: free ionic copper, fish in seawater': 'copper-ionic.target',
  'copper: ionic copper, seawater 5-35 g/kg': 'copper-ionic.more/leaflet-range',
  'copper: build-up to target': 'copper-ionic.more/days-to-level',
  'copper: duration at level': 'copper-ionic.more/days-at-level',
  'copper: testing': 'copper-ionic.more/tests-a-day',
  'copper: chelated forms, total copper': 'copper-chelated.more/typical-level',
  'copper: amine-bound, total copper': 'copper-amine.more/typical-level',
  'copper: low alarm, ionic': 'copper-ionic.warnBelow',
  'copper: stop above, ionic': 'copper-ionic.urgentAbove',
  'ammonia: US EPA saltwater chronic criterion': 'ammonia.more/chronic-criterion',
  'ammonia: US EPA saltwater acute criterion': 'ammonia.more/acute-criterion',
  'ammonia: gill damage begins': 'ammonia.more/gill-damage',
  'ammonia: deaths expected': 'ammonia.more/deaths',
  'ammonia: quarantine alarm': 'ammonia.warnAbove.low=low ammonia.urgentAbove.low=high',
  'ammonia: longest stay at or above the chronic criterion': 'ammonia.more/longest-stay',
  'ammonia: juvenile clownfish, half dead in 96 h': 'ammonia.more/clownfish-half-dead',
  'nitrite: sea water, water change above': 'nitrite.warnAbove',
  'nitrite: hyposalinity, water change above': 'nitrite.more/hyposalinity-warn-above',
  'nitrite: juvenile clownfish, half dead in 96 h': 'nitrite.more/clownfish-half-dead',
  'light: soft corals': 'light.more/soft-corals',
  'light: large-polyp stony corals': 'light.more/large-polyp',
  'light: small-polyp stony corals': 'light.more/small-polyp',
  'light: experienced keepers, high-light stony corals': 'light.more/experienced-only',
  'light: light-limiting daily dose, laboratory': 'light.more/daily-dose-limiting',
  'light: potentially photoinhibiting daily dose, laboratory': 'light.more/daily-dose-high',
  'light: acclimation time, shade coral': 'light.more/shade-coral-days',
  'light: acclimation time, Acropora': 'light.more/acropora-days.low=low',
  'light: photoperiod': 'light.more/hours-a-day',
  'light: starting level of a ramp': 'light.more/start',
  'light: ramp length': 'light.more/ramp-days',
  'light: largest single step': 'light.more/step',
  'flow: mixed reef turnover': 'flow.more/mixed-reef',
  'flow: small-polyp stony coral turnover': 'flow.more/small-polyp',
  'flow: sump return': 'flow.more/sump-return',
  'flow: loss of rated flow by head and plumbing': 'flow.more/lost-to-head',
  'evaporation: open top, per day': 'evaporation.more/open-top',
  'evaporation: open top, surface loss': 'evaporation.more/open-top-depth',
  'water change: routine': 'water-change.more/routine',
  'water change: largest single change without matching checks': 'water-change.more/most-unmatched',
  'volume: net of nominal glass volume with rock': 'net-volume.more/net-of-nominal',
  'limewater: pH of saturated solution at 25 degC': 'ph.more/limewater-itself',
  'limewater: upper tank pH while dosing': 'ph.more/limewater-stop',
  'testing: hobby alkalinity test': 'alkalinity.kitError',
  'testing: hobby calcium test': 'calcium.kitError',
  'testing: hobby magnesium test': 'magnesium.kitError',
  'testing: pH meter with two-point calibration': 'ph.kitError',
  'testing: hand refractometer': 'salinity.kitError',
  'dosing: alkalinity and calcium apart': 'alkalinity.apart calcium.apart',
};

/** Rows without a figure of their own here: quarantine plans keep what treatments need, a sentence says the rest. */
const ELSEWHERE = new Set([
  'phosphate: shortage bleaches corals',
  'hyposalinity: Cryptocaryon tomonts destroyed',
  'hyposalinity: Cryptocaryon tomonts rupture',
  'hyposalinity: strain tolerance caution',
  'hyposalinity: not for Amyloodinium',
  'copper: duration at level, 14-day option',
  'copper: reading without copper_form',
  'ammonia: guideline total ammonia, marine, pH 8.0 20 degC',
  'light: saturation falls with depth of origin',
  'limewater: temperature coefficient of its pH',
]);

const keyOf = (row: Row) => `${textIn(row, 'topic')}: ${textIn(row, 'item')}`;
const rows = readReference('practice').map((row) => ({ key: keyOf(row), row, use: textIn(row, 'use') }));

function figureAt(id: string, name: string): Figure {
  const parameter = base.parameters.get(id);
  const figure = name.startsWith('more/')
    ? parameter?.more[name.slice('more/'.length)]
    : name === 'apart'
      ? parameter?.apart?.minutes
      : (parameter as Record<string, unknown> | undefined)?.[name];
  if (!figure) throw new Error(`knowledge/parameters/${id}.yaml has no ${name}`);
  return figure as Figure;
}

const placesOf = (stands: string) =>
  stands.split(' ').map((place) => {
    const [where = '', column] = place.split('=');
    const [id = '', name = '', end] = where.split('.');
    return {
      id,
      name,
      ends: end
        ? [[end, column] as const]
        : ([
            ['low', 'low'],
            ['high', 'high'],
          ] as const),
    };
  });

describe('practice.csv', () => {
  test('every row has its place', () => {
    const missing = rows.map(({ key }) => key).filter((key) => !(key in STANDS) && !ELSEWHERE.has(key));
    expect(missing).toEqual([]);
    const known = new Set(rows.map(({ key }) => key));
    expect([...Object.keys(STANDS), ...ELSEWHERE].filter((key) => !known.has(key))).toEqual([]);
  });

  const placed = rows.filter(({ key }) => key in STANDS);
  test.each(placed)('$key', ({ key, row, use }) => {
    for (const { id, name, ends } of placesOf(STANDS[key] ?? '')) {
      const figure = figureAt(id, name);
      for (const [end, column] of ends)
        expect(figure[end as 'low' | 'high'], `${id} ${name} ${end}`).toBe(numberIn(row, column ?? ''));
      // What explains stands under `more`, where no reading is compared with it, and says so.
      if (use === 'context') expect(figure).toMatchObject({ use: 'context' });
      else if ('use' in figure) {
        expect(FIGURE_USES).toContain(figure.use);
        // Of bound copper the label rules, so its typical span explains only.
        const expected = /chelated|amine/.test(id) ? 'context' : use;
        expect(figure.use, `${id} ${name}`).toBe(expected);
      }
      // Nothing is said to be better founded than the row has it.
      const status = textIn(row, 'status');
      if (status.startsWith('common practice')) expect(figure.standing).toBe('common-practice');
      if (status.endsWith('from memory')) expect(figure.standing).toBe('from-memory');
      if (figure.standing === 'published') expect(status).toBe('published, seen');
    }
  });
});
