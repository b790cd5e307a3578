// Slugs, mostly told by what stands on the back.
import type { SubjectTable } from '../subject-data.ts';

export const SLUGS: SubjectTable = {
  'berghia-nudi': { outline: { outline: 'slug', girth: 20, back: 'long-fingers', tipFill: '#ffffff', headMark: '#e88b3c' }, colours: ['grey', 'white'], setting: 'glass' },
  'zoa-nudi': { outline: { outline: 'slug', girth: 36, back: 'fingers', tipFill: '#8ed36a' }, colours: ['brown', 'green'], setting: 'zoanthids' },
  'montipora-nudi': { outline: { outline: 'slug', girth: 34, back: 'bulbs', tipFill: '#ffffff' }, colours: ['white'], setting: 'plate-coral' },
  'goniopora-nudi': { outline: { outline: 'slug', girth: 30, back: 'long-fingers', tipFill: '#f3ead6', hump: true }, colours: ['brown', 'grey'], setting: 'daisy-coral' },
  'porites-nudi': { outline: { outline: 'slug', girth: 52, back: 'stubs', tipFill: '#e8dcc0' }, colours: ['tan', 'brown', 'mottled'], setting: 'lump-coral' },
  'sun-coral-nudi': { outline: { outline: 'slug', girth: 36, back: 'fingers', tipFill: '#f3d36b' }, colours: ['orange', 'yellow'], setting: 'sun-coral' },
  'soft-coral-nudi': { outline: { outline: 'slug', girth: 34, back: 'edge-tufts' }, colours: ['pink', 'white'], setting: 'soft-coral' },
  'dorid-nudi': { outline: { outline: 'slug', girth: 54, back: 'gill-flower', head: 'short-horns' }, colours: ['yellow', 'orange', 'spotted'] },
  'wart-slug': { outline: { outline: 'slug', girth: 50, back: 'warts', head: 'short-horns' }, colours: ['black', 'blue', 'yellow'] },
  'lettuce-slug': { outline: { outline: 'slug', girth: 40, back: 'frills', head: 'ears' }, colours: ['green', 'blue'] },
  'sap-sucking-slug': { outline: { outline: 'slug', girth: 24, back: 'flaps', head: 'ears' }, colours: ['green', 'white'], setting: 'algae' },
  'sea-hare': { outline: { outline: 'slug', girth: 62, head: 'ears' }, colours: ['brown', 'green', 'mottled'] },
  'headshield-slug': { outline: { outline: 'slug', girth: 48, back: 'lines', head: 'shield', twoTails: true }, colours: ['black', 'blue'] },
  'bubble-snail': { outline: { outline: 'slug', girth: 44, back: 'bubble-shell', head: 'shield' }, colours: ['green', 'brown'] },
}; // prettier-ignore
