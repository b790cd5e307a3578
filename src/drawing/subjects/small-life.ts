// Films and slimes, eggs and traces, and what a sick fish shows.
import type { SubjectTable } from '../subject-data.ts';

export const SMALL_LIFE: SubjectTable = {
  'film-algae': { outline: { outline: 'film', kind: 'haze', on: 'glass' }, colours: ['green'] },
  'bacterial-film': { outline: { outline: 'film', kind: 'haze' }, colours: ['white', 'grey'] },
  'cyano-red': { outline: { outline: 'film', kind: 'sheet' }, colours: ['red', 'purple'] },
  diatoms: { outline: { outline: 'film', kind: 'dust', on: 'sand' }, colours: ['brown', 'tan'] },
  'dino-ostreopsis': { outline: { outline: 'film', kind: 'strings' }, colours: ['brown', 'tan'] },
  'dino-sand': { outline: { outline: 'film', kind: 'slime', on: 'sand' }, colours: ['brown', 'tan'] },
  'golden-algae': { outline: { outline: 'film', kind: 'golden' }, colours: ['yellow', 'brown'] },
  'brown-jelly': { outline: { outline: 'film', kind: 'jelly-on-coral' }, colours: ['brown'] },
  'expelled-algae': { outline: { outline: 'film', kind: 'strings-from-mouth' }, colours: ['brown'] },
  'coral-spawn': { outline: { outline: 'eggs', kind: 'spawn' }, colours: ['pink', 'orange'] },
  'eggs-on-coral': { outline: { outline: 'eggs', kind: 'coral-patch' }, colours: ['white', 'brown'] },
  'eggs-on-glass': { outline: { outline: 'eggs', kind: 'dots' }, colours: ['white', 'clear'] },
  'marine-ich': { outline: { outline: 'fish', signs: 'grains' }, colours: ['white'] },
  'black-ich': { outline: { outline: 'fish', signs: 'pepper' }, colours: ['black'] },
  'marine-velvet': { outline: { outline: 'fish', signs: 'dust', gills: 'both', fishFill: '#7f93b8' }, colours: ['yellow'] },
  brooklynella: { outline: { outline: 'fish', signs: 'peeling', bars: true, fishFill: '#e88b3c' }, colours: ['grey'] },
  lymphocystis: { outline: { outline: 'fish', signs: 'lumps' }, colours: ['white'] },
  uronema: { outline: { outline: 'fish', signs: 'sore', fishFill: '#9cc0b4' }, colours: ['red'] },
}; // prettier-ignore
