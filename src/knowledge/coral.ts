import { z } from 'zod';
import * as word from './coral-words.ts';
import { entryId, many, paragraph } from './critter.ts';
import { HUMAN_HAZARDS } from './judgement-words.ts';

/** The parts of a coral entry that make a claim, and that a source must therefore support. */
export const CORAL_CLAIMS = ['name', 'what', 'place', 'neighbours', 'feed', 'swap', 'caution', 'permit'] as const;
export type CoralClaim = (typeof CORAL_CLAIMS)[number];

/** Micromoles of light per square metre and second at the coral; full sun on a reef stays below the limit. */
const par = z.number().int().min(0).max(1000);

const names = z
  .array(z.string().min(2).max(60))
  .default([])
  .refine((list) => new Set(list).size === list.length, 'each name once');
const critterIds = z
  .array(entryId)
  .default([])
  .refine((list) => new Set(list).size === list.length, 'each critter once');

/** One file in knowledge/corals/: a genus, or a growth form or group of genera that is kept alike. */
export const Coral = z
  .strictObject({
    /** The plain name in the trade. */
    name: z.string().min(3).max(60),
    hobbyNames: names,
    scientificName: z.string().min(3).max(160),
    kind: z.enum(word.CORAL_KINDS),
    growthForm: z.enum(word.GROWTH_FORMS),
    /** The span of light to settle in: begin at the low end and raise over about three weeks. */
    lightPar: z.tuple([par, par]).refine(([low, high]) => low <= high, 'the lower light first'),
    flow: z.enum(word.FLOWS),
    /** How far it can hurt a neighbour, and what happens within that reach: two questions. */
    reach: z.enum(word.REACHES),
    strength: z.enum(word.STRENGTHS),
    /** It harms stony corals through the water, without touching them. */
    chemical: z.boolean(),
    /** It creeps and gets a rock of its own or a moat of sand. */
    containment: z.boolean(),
    placement: z.enum(word.PLACEMENTS),
    feeding: z.enum(word.FEEDING_NEEDS),
    /** It is handled as poisonous, proven or not. */
    palytoxin: z.boolean(),
    /** What it can do to a person; shown with every answer about it. */
    humanHazards: many(HUMAN_HAZARDS),
    careFlags: many(word.CARE_FLAGS),
    citesAppendixII: z.boolean(),
    /** Critters known or suspected to eat or harm it. */
    pests: critterIds,
    /** Critters that live on it and mostly do no harm: never treated as pests. */
    lodgers: critterIds,
    /** What it is and what it looks like. */
    what: paragraph(240),
    /** Where to put it and why: light from the low end, flow, room for its reach. */
    place: paragraph(340),
    /** Who may stand beside it. */
    neighbours: paragraph(260),
    /** How it eats; required where light alone is not enough. */
    feed: paragraph(200).optional(),
    /** What matters when a piece of it changes hands: the cut, healing, dip and hold on arrival. */
    swap: paragraph(320),
    /** What people must mind; required where it can hurt somebody. */
    caution: paragraph(340).optional(),
    /** That papers may be needed to take it across a border; required for corals in CITES Appendix II. */
    permit: paragraph(200).optional(),
    /** Source id → the claims it supports. Every claim needs at least one. */
    sources: z
      .record(entryId, z.array(z.enum(CORAL_CLAIMS)).min(1))
      .refine((map) => Object.keys(map).length > 0, 'at least one source'),
  })
  .superRefine((entry, context) => {
    const problem = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message });
    if ((entry.humanHazards.length > 0 || entry.palytoxin) && !entry.caution)
      problem('caution', 'what people must mind, since it can hurt somebody');
    if (entry.palytoxin && !entry.humanHazards.includes('toxin-palytoxin'))
      problem('humanHazards', 'toxin-palytoxin, because palytoxin is true');
    if (entry.citesAppendixII && !entry.permit)
      problem('permit', 'that papers may be needed to cross a border, since it is in Appendix II');
    if (entry.citesAppendixII !== word.KINDS_IN_APPENDIX_II.has(entry.kind))
      problem('citesAppendixII', `${!entry.citesAppendixII}, because of the kind ${entry.kind}`);
    if (entry.feeding !== 'light' && !entry.feed)
      problem('feed', 'what it eats, since it does not live on light alone');
    for (const [flag, wanted] of flagsThatFollow(entry))
      if (entry.careFlags.includes(flag) !== wanted)
        problem(
          'careFlags',
          wanted ? `${flag} too, which the rest of the entry implies` : `no ${flag} beside the rest`,
        );
    const supported = new Set(Object.values(entry.sources).flat());
    for (const claim of CORAL_CLAIMS) {
      const made = entry[claim] !== undefined;
      if (made && !supported.has(claim)) problem('sources', `a source for "${claim}"; list it under one of them`);
      if (!made && supported.has(claim)) problem('sources', `no source for "${claim}", which this entry does not have`);
    }
  });
export type CoralData = z.infer<typeof Coral>;
export type Coral = CoralData & { id: string };

type Settled = Pick<CoralData, 'palytoxin' | 'chemical' | 'containment' | 'feeding' | 'strength'>;

/** A flag repeats in an answer what a field says already; the two must never part. */
function flagsThatFollow({ palytoxin, chemical, containment, feeding, strength }: Settled) {
  return [
    ['poison-gloves-goggles', palytoxin],
    ['poisons-water', chemical],
    ['own-island', containment],
    ['must-be-fed', feeding === 'must-be-fed'],
    ['expert-only', feeding === 'expert-only'],
    ['kills-neighbours', strength === 'kills-most'],
  ] as const;
}
