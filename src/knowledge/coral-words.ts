// The fixed words that coral entries are written with. What each means is said beside it, because a placement
// answer is built from them.

/** What sort of animal it is; the first three have a hard skeleton and fall under trade rules. */
export const CORAL_KINDS = ['stony', 'octocoral-stony', 'hydrocoral', 'soft', 'zoanthid', 'corallimorph'] as const;

export const GROWTH_FORMS = [
  'branching',
  'plating',
  'encrusting',
  /** Domes and boulders. */
  'massive',
  /** Polyps on a shared creeping base. */
  'mat',
  /** One large polyp, lying free or fixed. */
  'single-polyp',
  /** A cap or club on one trunk. */
  'single-stalk',
  /** Lobes, fingers, columns or dishes on a spreading base. */
  'lobed',
] as const;

export const FLOWS = ['low', 'medium', 'high'] as const;

/**
 * How far it can hurt a neighbour beyond its own resting edge: contact only, up to 20 mm, 20 to 60 mm,
 * 60 to 150 mm, and more. Distance only: a short reach that kills is still a bad neighbour.
 */
export const REACHES = ['none', 'short', 'medium', 'long', 'very-long'] as const;

/** What happens within that reach: it loses to most, wins against most, or digests nearly every neighbour. */
export const STRENGTHS = ['weak', 'strong', 'kills-most'] as const;

/** Where it belongs: `sand` tears on rock; `hang` sits under a ledge or a shaded overhang. */
export const PLACEMENTS = ['sand', 'rock', 'either', 'hang'] as const;

/** `must-be-fed`: every polyp, several times a week; `expert-only`: it usually starves in a tank. */
export const FEEDING_NEEDS = ['light', 'light-and-extra', 'must-be-fed', 'expert-only'] as const;

/** What a placement answer must say. */
export const CARE_FLAGS = [
  'poison-gloves-goggles',
  'burns-skin',
  'stings-skin',
  'poisons-water',
  'kills-neighbours',
  /** Long ones, mostly out at night. */
  'sweepers',
  /** It creeps: a rock of its own. */
  'own-island',
  'expert-only',
  'must-be-fed',
  'flesh-tears',
  /** It walks or drifts off. */
  'moves',
  /** It needs room for twice its size. */
  'inflates',
  'eats-fish',
  'start-low-light',
] as const;

/** The kinds whose trade across borders CITES Appendix II governs. */
export const KINDS_IN_APPENDIX_II: ReadonlySet<string> = new Set(['stony', 'octocoral-stony', 'hydrocoral']);
