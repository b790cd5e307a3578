import type { Danger, ReagentData } from './reagent.ts';

type Where = 'hazard' | 'protect' | 'making' | 'mind';
/** What an entry has to say because of one danger: a pattern for each part, and a row of first aid. */
type Demand = { says: Partial<Record<Where, { pattern: RegExp; plainly: string }>>; firstAid?: string };

const LOCKED = { pattern: /\b(locked|away from children)\b/i, plainly: 'that it is kept away from children' };
const INTO_WATER = {
  pattern: /portions.*never water onto the (salt|powder)/i,
  plainly: 'salt into water in portions, never water onto the salt',
};

const DEMANDS: Readonly<Record<Danger, Demand>> = {
  'strong-alkali': {
    says: {
      hazard: { pattern: /eye/i, plainly: 'what it does to eyes' },
      protect: { pattern: /goggles and gloves/i, plainly: 'goggles and gloves' },
    },
    firstAid: 'chem-base',
  },
  heats: {
    says: {
      making: INTO_WATER,
      hazard: { pattern: /(heats|warms)/i, plainly: 'that it heats on dissolving' },
      protect: { pattern: /goggles/i, plainly: 'goggles' },
    },
  },
  oxidiser: {
    says: {
      hazard: { pattern: /anything that burns/i, plainly: 'to keep it from anything that burns' },
      protect: LOCKED,
    },
  },
  controlled: { says: { mind: { pattern: /\blaw\b/i, plainly: 'that the law may control its sale' } } },
  poison: { says: { hazard: { pattern: /poisonous/i, plainly: 'that it is poisonous' }, protect: LOCKED } },
  heart: { says: { hazard: { pattern: /heart/i, plainly: 'what it does to the heart' }, protect: LOCKED } },
  thyroid: {
    says: { mind: { pattern: /thyroid.*doctor/i, plainly: 'who asks a doctor first' }, protect: LOCKED },
    firstAid: 'chem-iodine',
  },
  'kills-invertebrates': {
    says: {
      mind: { pattern: /invertebrates.*quarantine tank only.*vet/i, plainly: 'quarantine tank only, vet first' },
    },
    firstAid: 'chem-copper',
  },
};

/** Dangers that follow from what a salt is made of; an entry cannot leave them out. */
const FROM_FORMULA: readonly { made: RegExp; dangers: readonly Danger[] }[] = [
  { made: /OH|CO3/, dangers: ['strong-alkali'] },
  { made: /NO3/, dangers: ['oxidiser', 'controlled'] },
  { made: /^KI$/, dangers: ['thyroid'] },
  { made: /Cu/, dangers: ['poison', 'kills-invertebrates'] },
  { made: /^(CaCl2|CaCl2\.2H2O|MgSO4|Na2CO3)$/, dangers: ['heats'] },
];
const MILD = /HCO3/;

/** What an entry owes its reader and does not say: `path` is the part it should stand in. */
export function missingFromReagent(reagent: ReagentData): { path: string; message: string }[] {
  const { formula, dangers, firstAid, onlyIn } = reagent;
  const owed = MILD.test(formula)
    ? []
    : FROM_FORMULA.flatMap(({ made, dangers: brought }) => (made.test(formula) ? brought : []));
  return [
    ...owed
      .filter((danger) => !dangers.includes(danger))
      .map((danger) => ({
        path: 'dangers',
        message: `came ${formula} without "${danger}", expected it among the dangers`,
      })),
    ...dangers.flatMap((danger) => {
      const { says, firstAid: row } = DEMANDS[danger];
      const unsaid = Object.entries(says).flatMap(([path, { pattern, plainly }]) =>
        pattern.test(reagent[path as Where] ?? '')
          ? []
          : [{ path, message: `came no word for "${danger}", expected ${plainly}` }],
      );
      const unaided =
        row !== undefined && !firstAid.includes(row)
          ? [{ path: 'firstAid', message: `came no "${row}", expected it for "${danger}"` }]
          : [];
      return [...unsaid, ...unaided];
    }),
    ...(dangers.includes('kills-invertebrates') && onlyIn !== 'quarantine'
      ? [{ path: 'onlyIn', message: 'came no "quarantine", expected it for what kills invertebrates' }]
      : []),
  ];
}
