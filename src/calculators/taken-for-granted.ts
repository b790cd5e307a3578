import type { Note, ReadQuantity } from '../../shared/quantity-text.ts';

const IN_WORDS: Readonly<Record<Exclude<Note, 'unit-assumed'>, string>> = {
  'us-measure-assumed': 'no country given, so US measure',
  'imperial-measure-assumed': 'no country given, so imperial measure like your tank’s',
  'comma-as-thousands': 'the comma read as thousands',
  'ppm-as-mg-per-l': 'ppm and ppb taken per litre, as test kits mean them',
  'ppm-as-caco3': 'ppm of alkalinity taken as mg/L CaCO3',
  'mmol-as-meq': 'mmol/L taken as meq/L, as test kits mean it',
  'sg-at-25':
    'specific gravity taken at 25 °C against water at 25 °C; a hydrometer for 60 °F is written “1.0265 sg 60F”',
  'compensated-to-25': 'taken as a meter shows it that refers to 25 °C',
  'usual-density': 'with the density of seawater of 35 ppt at 25 °C',
  'ammonia-as-nitrogen': 'taken as nitrogen; write NH3 or NH4 if your kit counts those',
  'ammonia-is-all': 'taken as all the ammonia that a kit finds, not as free NH3 alone',
  'us-spoon-assumed': 'US spoon, 4.93 mL a teaspoon',
  'metric-spoon-assumed': 'metric spoon, 5 mL a teaspoon',
  spoon: 'spoons are a rough measure: weigh powders, and draw liquids into a syringe',
};

/** What was taken for granted in reading an amount, in words; empty when nothing was. */
export function takenForGranted({ notes, unit }: ReadQuantity): string {
  return notes.map((note) => (note === 'unit-assumed' ? `no unit given, taken as ${unit}` : IN_WORDS[note])).join('; ');
}
