import type { ColourWord } from './ink.ts';
import type { Outline } from './outline.ts';
import type { Setting } from './settings.ts';
export type SubjectData = { outline: Outline; colours?: readonly ColourWord[]; setting?: Setting };
export const SUBJECTS: Readonly<Record<string, SubjectData>> = {
  'bristleworm-common': {
    outline: { outline: 'worm', rings: true, bristles: 'fringe', gills: 'pale', lobe: 'small' },
    colours: ['pink', 'grey'],
  },
  'fireworm-bearded': {
    outline: { outline: 'worm', girth: 22, rings: true, bristles: 'brushes', gills: 'red', lobe: 'large' },
    colours: ['orange', 'red'],
  },
  aiptasia: {
    outline: { outline: 'polyp', tentacles: 'mixed', column: 'trumpet', length: 95, disc: 40 },
    colours: ['tan'],
  },
  majano: {
    outline: { outline: 'polyp', tentacles: 'stubby', column: 'short', length: 36, disc: 66 },
    colours: ['green', 'pink'],
  },
  'cone-snail': {
    outline: { outline: 'shell', profile: 'cone', mouth: 'slit', soft: 'trunk' },
    colours: ['white', 'brown', 'mottled'],
  },
  'turbo-snail': {
    outline: { outline: 'shell', profile: 'top', mouth: 'round-door', soft: 'feelers' },
    colours: ['brown', 'green'],
  },
  'asterina-harmless': {
    outline: { outline: 'star', arms: [1, 0.9, 1, 0.45, 0.5, 0.95], width: [0.55, 0.2], web: 0.5, radius: 130 },
    colours: ['white', 'grey'],
    setting: 'glass',
  },
  'linckia-comet': {
    outline: {
      outline: 'star',
      arms: [0.36, 0.33, 1, 0.38, 0.3],
      width: [0.22, 0.12],
      web: 0.16,
      radius: 200,
      middle: [120, 86],
    },
    colours: ['red', 'pink', 'mottled'],
  },
};
