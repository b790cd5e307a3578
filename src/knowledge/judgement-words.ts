// The fixed words that judgements in the knowledge base are written with. What each word means to a
// reader is knowledge and lives in the YAML; here are only the words, so that a mistyped one is caught.

export const GROUPS = [
  'worm',
  'flatworm',
  'echinoderm-star',
  'echinoderm-other',
  'snail',
  'slug',
  'bivalve',
  'mollusc-other',
  'crustacean',
  'sea-spider',
  'cnidarian',
  'ctenophore',
  'sponge',
  'tunicate',
  'bryozoan',
  'foraminiferan',
  'algae',
  'microbe',
  'fish-parasite',
  'egg-or-trace',
] as const;

export const STANDINGS = [
  'scavenger',
  'grazer',
  'filter-feeder',
  'symbiont',
  'harmless',
  'situational',
  'pest',
  'predator',
  'parasite',
] as const;

export const VERDICTS = ['keep', 'watch', 'remove', 'urgent'] as const;

export const THREATENED = [
  'corals',
  'soft-corals',
  'zoanthids',
  'anemones',
  'pest-anemones',
  'clams',
  'snails',
  'fish',
  'crustaceans',
  'worms',
  'flatworms',
  'stars',
  'other-echinoderms',
  'sponges',
  'tunicates',
  'coralline-algae',
  'sand-fauna',
  'other-invertebrates',
  'people',
] as const;

export const FREQUENCIES = ['very-common', 'common', 'occasional', 'rare'] as const;

export const ACTIONS = [
  'leave',
  'watch',
  'hand-remove',
  'trap',
  'dip',
  'quarantine',
  'biological-control',
  'manual-and-husbandry',
  'vet',
  'do-not-touch',
  'medical-if-hurt',
  'ask-for-photo',
] as const;

export const HUMAN_HAZARDS = [
  'irritant',
  'irritant-bristles',
  'sting-mild',
  'sting-serious',
  'bite-pinch',
  'spines',
  'cut',
  'venomous-harpoon',
  'venomous-bite',
  'toxin-palytoxin',
  'aerosol-toxin',
  'eye-splash',
  'toxic-if-eaten',
  'wound-infection',
] as const;

export const RANKS = [
  'species',
  'species complex',
  'species group',
  'species (uncertain)',
  'genus',
  'genus group',
  'family',
  'superfamily',
  'subfamily',
  'order',
  'order group',
  'suborder',
  'superorder',
  'class',
  'phylum',
  'higher taxon',
  'life stage',
  'trace',
  'undescribed',
  'group',
] as const;
