// What stands for a trait value in a question: one plain drawing for every body form and every shell shape.
import type { BODY_FORMS, SHELL_SHAPES } from '../knowledge/trait-words.ts';
import type { Subject } from './subject.ts';

export type BodyForm = (typeof BODY_FORMS)[number];
export type ShellShape = (typeof SHELL_SHAPES)[number];

/** Body form → the drawing that shows it. */
export const BODY_FORM_SUBJECTS: Readonly<Record<BodyForm, Subject>> = {
  'long-worm': { outline: { outline: 'worm', girth: 22, rings: true, bristles: 'fringe' }, colour: ['pink'] },
  'oval-worm': { outline: { outline: 'oval-worm', coat: 'scales' }, colour: ['grey', 'brown'] },
  'tube-dweller': { outline: { outline: 'tube', tube: 'papery', out: 'small-fan', wide: 16 }, colour: ['brown', 'white'] },
  sausage: { outline: { outline: 'sausage', feet: true, front: 'bushy' }, colour: ['brown'] },
  'flat-oval': { outline: { outline: 'flatworm', ruffled: true }, colour: ['tan', 'brown'] },
  star: { outline: { outline: 'star', arms: [1, 1, 1, 1, 1], width: [0.4, 0.12], web: 0.32 }, colour: ['orange'] },
  octopus: { outline: { outline: 'octopus' }, colour: ['brown', 'red'] },
  ball: { outline: { outline: 'crab', carapace: 'high', claws: 'mask' }, colour: ['tan'] },
  'spiny-ball': { outline: { outline: 'urchin', spines: 'sharp' }, colour: ['purple'] },
  'coiled-shell': { outline: { outline: 'shell', profile: 'top', mouth: 'round-door', soft: 'feelers' }, colour: ['brown'] },
  'glossy-shell': { outline: { outline: 'glossy', mantle: 'tufts' }, colour: ['tan', 'brown'] },
  'cap-shell': { outline: { outline: 'cap', kind: 'plain' }, colour: ['grey'] },
  'slug-like': { outline: { outline: 'slug', back: 'fingers', tipFill: '#ffffff' }, colour: ['blue'] },
  'two-shells': { outline: { outline: 'bivalve', kind: 'box' }, colour: ['tan'] },
  sac: { outline: { outline: 'sac', kind: 'squirt' }, colour: ['clear'] },
  'bug-like': { outline: { outline: 'flat-pod', form: 'pill' }, colour: ['grey'] },
  'stick-like': { outline: { outline: 'stick' }, colour: ['tan'] },
  'shrimp-like': { outline: { outline: 'shrimp', claws: 'small' }, colour: ['red', 'white'] },
  'crab-like': { outline: { outline: 'crab', carapace: 'wide', claws: 'pointed' }, colour: ['brown'] },
  'spider-like': { outline: { outline: 'spider', kind: 'sea-spider' }, colour: ['tan'] },
  polyp: { outline: { outline: 'polyp', tentacles: 'pointed', column: 'short' }, colour: ['green'] },
  'colony-of-polyps': { outline: { outline: 'zoanthids', stalk: 60, disc: 48, count: 4 }, colour: ['green', 'orange'] },
  feather: { outline: { outline: 'hydroid', kind: 'fern' }, colour: ['tan'] },
  'jelly-bell': { outline: { outline: 'jelly', kind: 'bell' }, colour: ['clear'] },
  'encrusting-sheet': { outline: { outline: 'sponge', kind: 'lobes' }, colour: ['orange'] },
  bushy: { outline: { outline: 'algae', kind: 'hair' }, colour: ['green'] },
  leafy: { outline: { outline: 'algae', kind: 'blades' }, colour: ['green'] },
  bubble: { outline: { outline: 'algae', kind: 'bubbles' }, colour: ['green'] },
  'film-or-slime': { outline: { outline: 'film', kind: 'sheet' }, colour: ['red'] },
  dots: { outline: { outline: 'eggs', kind: 'dots' }, colour: ['white'] },
  'shrimp-or-crab-husk': { outline: { outline: 'shrimp', claws: 'small', eyes: 'empty', husk: true }, colour: ['clear'] },
}; // prettier-ignore

/** Shell shape → the drawing that shows it; "none" shows a soft animal. */
export const SHELL_SHAPE_SUBJECTS: Readonly<Record<ShellShape, Subject>> = {
  none: { outline: { outline: 'slug', back: 'smooth' }, colour: ['tan'] },
  carapace: { outline: { outline: 'crab', carapace: 'round', claws: 'slim' }, colour: ['brown'] },
  round: { outline: { outline: 'shell', profile: 'round', mouth: 'round-door' }, colour: ['tan'] },
  turret: { outline: { outline: 'shell', profile: 'turret', mouth: 'oval' }, colour: ['tan'] },
  'low-cone': { outline: { outline: 'shell', profile: 'low-cone', mouth: 'round-hole' }, colour: ['tan'] },
  top: { outline: { outline: 'shell', profile: 'top', mouth: 'round-door' }, colour: ['tan'] },
  spindle: { outline: { outline: 'shell', profile: 'spindle', mouth: 'canal' }, colour: ['tan'] },
  cone: { outline: { outline: 'shell', profile: 'cone', mouth: 'slit' }, colour: ['tan'] },
  spiny: { outline: { outline: 'shell', profile: 'knobbly', mouth: 'canal', relief: 'spines' }, colour: ['tan'] },
  'glossy-oval': { outline: { outline: 'glossy', view: 'slit' }, colour: ['tan', 'brown'] },
  ear: { outline: { outline: 'slug', back: 'ear-shell', head: 'long-feelers' }, colour: ['black', 'tan'] },
  cap: { outline: { outline: 'cap', kind: 'plain' }, colour: ['tan'] },
  'keyhole-cap': { outline: { outline: 'cap', kind: 'keyhole' }, colour: ['tan'] },
  tube: { outline: { outline: 'vermetid' }, colour: ['white'] },
  'spiral-tube': { outline: { outline: 'coil-tubes' }, colour: ['white'] },
  'two-valves': { outline: { outline: 'bivalve', kind: 'box' }, colour: ['tan'] },
  plates: { outline: { outline: 'chiton' }, colour: ['green', 'tan'] },
  'thin-bubble': { outline: { outline: 'slug', back: 'bubble-shell', head: 'shield' }, colour: ['green'] },
  borrowed: { outline: { outline: 'hermit', legs: 'smooth', legFill: '#5a8fcb' }, colour: ['blue'] },
}; // prettier-ignore
