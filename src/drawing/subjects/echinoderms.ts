// Stars, urchins, cucumbers.
import type { SubjectTable } from '../subject-data.ts';

const even = (count: number) => Array.from({ length: count }, () => 1);

export const ECHINODERMS: SubjectTable = {
  'asterina-harmless': { outline: { outline: 'asterina', arms: [1, 0.92, 0.84, 0.5, 0.42, 0.5, 0.94], waist: 0.56, reach: 142 }, colours: ['white', 'grey'], setting: 'glass' },
  'asterina-coral-eating': { outline: { outline: 'asterina', arms: [1, 1, 0.97, 0.97, 1], waist: 0.68, reach: 124 }, colours: ['green', 'brown', 'mottled'], setting: 'zoanthids' },
  'blue-linckia': { outline: { outline: 'star', arms: even(5), width: [0.26, 0.14], web: 0.22, radius: 146 }, colours: ['blue'] },
  'linckia-comet': { outline: { outline: 'star', arms: [0.36, 0.33, 1, 0.38, 0.3], width: [0.22, 0.12], web: 0.16, radius: 210, middle: [116, 84] }, colours: ['red', 'pink', 'mottled'] },
  'fromia-star': { outline: { outline: 'star', arms: even(5), width: [0.46, 0.12], web: 0.34, cover: 'tiles' }, colours: ['red', 'orange'] },
  'chocolate-chip-star': { outline: { outline: 'star', arms: even(5), width: [0.6, 0.2], web: 0.46, cover: 'points' }, colours: ['tan', 'brown'] },
  'red-knobbed-star': { outline: { outline: 'star', arms: even(5), width: [0.52, 0.18], web: 0.42, cover: 'net' }, colours: ['grey', 'red'] },
  'sand-sifting-star': { outline: { outline: 'star', arms: even(5), width: [0.5, 0.06], web: 0.34, comb: true }, colours: ['tan', 'grey'], setting: 'sand' },
  'cushion-star': { outline: { outline: 'star', arms: even(5), width: [0.9, 0.34], web: 0.86, cover: 'dots', radius: 128 }, colours: ['brown', 'orange', 'mottled'] },
  'crown-of-thorns': { outline: { outline: 'thorny-star', arms: even(13), width: [0.3, 0.14], web: 0.6, radius: 128 }, colours: ['purple', 'grey'] },
  'brittle-star-large': { outline: { outline: 'brittle-star', disc: 34, thickness: 10, banded: true, spines: 'short' }, colours: ['brown', 'tan'] },
  'brittle-star-micro': { outline: { outline: 'brittle-star', arms: [1, 0.92, 0.55, 1, 0.6, 0.95], disc: 26, thickness: 6, banded: true, spines: 'long' }, colours: ['white', 'green'] },
  'green-brittle-star': { outline: { outline: 'brittle-star', disc: 52, thickness: 13, dots: true, spines: 'short', tent: true }, colours: ['green'] },
  'feather-star': { outline: { outline: 'feather-star', arms: 12 }, colours: ['yellow', 'black'] },
  'collector-urchin': { outline: { outline: 'urchin', spines: 'short', striped: true, rubble: true, leaves: true }, colours: ['black', 'orange'] },
  'fire-urchin': { outline: { outline: 'urchin', spines: 'bundles', oval: true }, colours: ['red', 'orange'] },
  'flower-urchin': { outline: { outline: 'urchin', spines: 'petals', rubble: true, home: 'sand' }, colours: ['pink', 'purple'] },
  'longspine-urchin': { outline: { outline: 'urchin', spines: 'needles' }, colours: ['black'] },
  'pencil-urchin': { outline: { outline: 'urchin', spines: 'pencils' }, colours: ['brown', 'tan'] },
  'pincushion-urchin': { outline: { outline: 'urchin', spines: 'short' }, colours: ['pink'] },
  'rock-boring-urchin': { outline: { outline: 'urchin', spines: 'sharp', oval: true, home: 'groove' }, colours: ['purple', 'black'] },
  'tuxedo-urchin': { outline: { outline: 'urchin', spines: 'fine', bands: true, rubble: true }, colours: ['brown', 'blue'] },
  'sand-dollar': { outline: { outline: 'sand-dollar' }, colours: ['purple', 'grey'], setting: 'sand' },
  'medusa-worm': { outline: { outline: 'worm', girth: 22, crown: true }, colours: ['tan', 'brown', 'striped'] },
  'sea-apple': { outline: { outline: 'sausage', girth: 68, feet: true, front: 'bushy', footFill: '#f0d060', crownFill: '#ffffff' }, colours: ['purple', 'red'] },
  'sea-cucumber-sand': { outline: { outline: 'sausage', girth: 42, feet: true, front: 'pads' }, colours: ['brown', 'tan'], setting: 'sand' },
  'sea-cucumber-small': { outline: { outline: 'sausage', girth: 34, feet: true, front: 'bushy' }, colours: ['pink', 'yellow'] },
}; // prettier-ignore
