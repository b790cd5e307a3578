// The outline that traits alone lead to, for animals that nobody has set a special outline down for.
import type { Critter } from '../knowledge/critter.ts';
import type { Outline } from './outline.ts';
import { BODY_FORM_SUBJECTS, SHELL_SHAPE_SUBJECTS } from './trait-options.ts';

type Shown = Partial<Pick<Critter['traits'], 'bodyForm' | 'appendages' | 'shellShape' | 'segments'>>;

const PLAIN: Outline = { outline: 'flatworm' };

/** The first body form decides; shell shape and appendages refine it. */
export function outlineFromTraits(traits: Shown): Outline {
  const [form] = traits.bodyForm ?? [];
  const has = (appendage: NonNullable<Shown['appendages']>[number]) => traits.appendages?.includes(appendage) ?? false;
  const shell = traits.shellShape?.find((shape) => shape !== 'none' && shape !== 'carapace');
  const shelled = form === undefined || form.endsWith('-shell') || form === 'slug-like' || form === 'tube-dweller' || form === 'crab-like'; // prettier-ignore
  const ofShell = shell && shelled ? SHELL_SHAPE_SUBJECTS[shell].outline : undefined;
  switch (form) {
    case 'long-worm':
      return {
        outline: 'worm',
        rings: traits.segments ?? true,
        flat: traits.segments === false,
        bristles: has('bristles') ? 'fringe' : 'none',
        paddles: has('swimming-paddles'),
        feelers: has('antennae') ? 5 : 0,
        jaws: has('jaws'),
        crown: has('branching-tentacles'),
        suckers: has('suckers'),
      };
    case 'oval-worm':
      return { outline: 'oval-worm', coat: has('scales') ? 'scales' : 'fur' };
    case 'tube-dweller':
      if (has('feather-crown') || !ofShell)
        return { outline: 'tube', tube: traits.shellShape?.includes('tube') ? 'hard' : 'gritty', out: has('feather-crown') ? 'fan' : has('two-palps') ? 'two-feelers' : 'flower' }; // prettier-ignore
      return ofShell;
    case 'sausage':
      if (has('long-trunk')) return { outline: 'trunk', tip: 'tuft' };
      return { outline: 'sausage', feet: has('tube-feet'), front: has('branching-tentacles') ? 'bushy' : 'none' };
    case 'star':
      return has('arms') && !has('tube-feet')
        ? { outline: 'brittle-star' }
        : { outline: 'star', arms: [1, 1, 1, 1, 1] };
    case 'slug-like':
      if (ofShell) return ofShell;
      return { outline: 'slug', back: has('cerata') ? 'fingers' : has('branching-gills') ? 'gill-flower' : 'smooth' };
    case 'shrimp-like':
      return { outline: 'shrimp', claws: has('raptorial-claws') ? 'raptorial' : has('claws') ? 'long-pair' : 'small' };
    case 'crab-like':
      if (ofShell) return ofShell;
      return { outline: 'crab', legs: has('swimming-paddles') ? 'paddles' : 'normal', fans: has('feeding-fans') };
    case 'polyp':
      return { outline: 'polyp', tentacles: has('ball-tipped-tentacles') ? 'balls' : has('branching-tentacles') ? 'twigs' : has('short-bumps') ? 'bumps' : 'pointed' }; // prettier-ignore
    default:
      return ofShell ?? (form && BODY_FORM_SUBJECTS[form].outline) ?? PLAIN;
  }
}
