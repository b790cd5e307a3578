import { z } from 'zod';
import * as judgement from './judgement-words.ts';
import * as trait from './trait-words.ts';

/** Ids are file names: lower-case words joined by hyphens. Two of them and an act must fit a button's custom id. */
export const entryId = z
  .string()
  .max(43)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case words joined by hyphens, such as bristleworm-common');

/** One paragraph of an entry: full sentences, no line breaks, short enough for a phone. */
export const paragraph = (most: number) =>
  z
    .string()
    .min(20, 'a full sentence of at least 20 characters')
    .max(most)
    .regex(/^[^\n\r]+$/, 'one paragraph without line breaks')
    .regex(/[.?!)”"]$/, 'a sentence that ends in a full stop');

/** A list of fixed words, each at most once. */
export const many = <const T extends readonly string[]>(values: T) =>
  z
    .array(z.enum(values))
    .default([])
    .refine((list) => new Set(list).size === list.length, 'each value once');

/** What can be seen of the animal. An empty list says nothing; it never counts against an answer. */
export const Traits = z.strictObject({
  /** Smallest and largest size met in a tank, in millimetres; which dimension is said in knowledge/README. */
  sizeMm: z
    .tuple([z.number().positive().max(5000), z.number().positive().max(5000)])
    .refine(([low, high]) => low <= high, 'the smaller size first')
    .optional(),
  bodyForm: many(trait.BODY_FORMS),
  segments: z.boolean().optional(),
  appendages: many(trait.APPENDAGES),
  shell: z.boolean().optional(),
  shellShape: many(trait.SHELL_SHAPES),
  colour: many(trait.COLOURS),
  texture: many(trait.TEXTURES),
  whereSeen: many(trait.PLACES),
  whenSeen: z.enum(trait.TIMES_OF_DAY).optional(),
  moves: many(trait.MOVES),
  /** Told unasked only: nobody is ever asked to touch anything. */
  onTouch: many(trait.REACTIONS_TO_TOUCH),
  reactsToShadowOrLight: z.enum(trait.REACTIONS_TO_LIGHT).optional(),
  speedOfDamage: z.enum(trait.DAMAGE_SPEEDS).optional(),
  host: many(trait.HOSTS),
  numbers: z.enum(trait.NUMBERS).optional(),
  evidence: many(trait.EVIDENCE),
});

/** The parts of an entry that make a claim, and that a source must therefore support. */
export const CLAIMS = ['name', 'what', 'know', 'does', 'matters', 'depends', 'now', 'worry', 'caution'] as const;
export type Claim = (typeof CLAIMS)[number];

/** One file in knowledge/critters/<group>/. The file name is the id. */
export const Critter = z
  .strictObject({
    name: z.string().min(3).max(60),
    aliases: z.array(z.string().min(2).max(60)).default([]),
    scientificName: z.string().min(3).max(160),
    /** How finely the entry is meant; nothing is promised below it. */
    rank: z.enum(judgement.RANKS),
    group: z.enum(judgement.GROUPS),
    standing: z.enum(judgement.STANDINGS),
    verdict: z.enum(judgement.VERDICTS),
    /** What it can harm in a tank; empty when nothing is worth a warning. */
    threatens: many(judgement.THREATENED),
    /** What it can do to a person; empty when no hazard is known in normal handling. */
    humanHazards: many(judgement.HUMAN_HAZARDS),
    howOftenMet: z.enum(judgement.FREQUENCIES),
    actions: many(judgement.ACTIONS),
    /** What it is, named no finer than its rank. */
    what: paragraph(240),
    /** How to know it by looking, from outside the tank. */
    know: paragraph(340),
    /** What it does in a tank. */
    does: paragraph(280),
    /** What it threatens or does for the keeper. */
    matters: paragraph(240),
    /** On what the advice depends; required where the advice is not the same for everybody. */
    depends: paragraph(260).optional(),
    /** What to do tonight. */
    now: paragraph(420),
    /** The sign that changes the advice. */
    worry: paragraph(260),
    /** What people must mind; required where it can hurt somebody. */
    caution: paragraph(340).optional(),
    traits: Traits,
    /** Source id → the claims it supports. Every claim needs at least one. */
    sources: z
      .record(entryId, z.array(z.enum(CLAIMS)).min(1))
      .refine((map) => Object.keys(map).length > 0, 'at least one source'),
  })
  .superRefine((entry, context) => {
    const problem = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message });
    if (entry.standing === 'situational' && !entry.depends)
      problem('depends', 'on what the advice depends, since the standing is situational');
    if (entry.verdict === 'keep' && entry.threatens.length > 0 && !entry.depends)
      problem('depends', 'on what the advice depends, since it is kept and threatens something');
    if (entry.humanHazards.length > 0 && !entry.caution)
      problem('caution', 'what people must mind, since humanHazards is not empty');
    const supported = new Set(Object.values(entry.sources).flat());
    for (const claim of CLAIMS) {
      const made = claim === 'name' || entry[claim] !== undefined;
      if (made && !supported.has(claim)) problem('sources', `a source for "${claim}"; list it under one of them`);
      if (!made && supported.has(claim)) problem('sources', `no source for "${claim}", which this entry does not have`);
    }
  });
export type CritterData = z.infer<typeof Critter>;
export type Critter = CritterData & { id: string };
