import { z } from 'zod';
import { FORMS } from '../knowledge/parameter.ts';
import { URGENCIES } from '../knowledge/sign.ts';

const id = z.string().min(1).max(60);

/** What a sign does to a plan. `fish`: a fish seen in a tank that should have none; `pest`: an animal or its eggs on a coral. */
export const SIGN_EFFECTS = ['infectious', 'weak', 'pest', 'fish', 'none'] as const;
export const APPETITES = ['none', 'some', 'normal'] as const;

const Seen = z.strictObject({ sign: id, effect: z.enum(SIGN_EFFECTS), urgency: z.enum(URGENCIES) });
export type Seen = z.infer<typeof Seen>;

/** Readings keep the unit they came in. Copper without its form is no reading. */
const Reading = z.discriminatedUnion('parameter', [
  z.strictObject({ parameter: z.literal('temperature'), value: z.number().min(-2).max(45), unit: z.literal('°C') }),
  z.strictObject({ parameter: z.literal('salinity'), value: z.number().min(0).max(60), unit: z.literal('ppt') }),
  z.strictObject({
    parameter: z.literal('copper'),
    value: z.number().min(0).max(20),
    /** 0.20 mg/L of copper sulfate is 0.05 mg/L of copper. */
    unit: z.enum(['mg/L Cu', 'mg/L CuSO4·5H2O']),
    form: z.enum(FORMS),
  }),
  z.strictObject({
    parameter: z.literal('ammonia'),
    value: z.number().min(0).max(100),
    unit: z.enum(['mg/L NH3-N', 'mg/L NH3', 'mg/L NH4']),
  }),
  z.strictObject({
    parameter: z.literal('nitrite'),
    value: z.number().min(0).max(500),
    unit: z.enum(['mg/L NO2', 'mg/L NO2-N']),
  }),
  z.strictObject({ parameter: z.literal('ph'), value: z.number().min(5).max(10), unit: z.literal('pH') }),
]);
export type Reading = z.infer<typeof Reading>;

/** `at` is when it happened, not when it was told. */
const Common = { id, at: z.date() };

/** Everything that can happen in a quarantine. The database keeps these and nothing else. */
export const PlanEvent = z.discriminatedUnion('kind', [
  z.strictObject({
    ...Common,
    kind: z.literal('started'),
    option: id.optional(),
    /** What the label of a bound copper names. */
    copperLabel: z
      .strictObject({ form: z.enum(FORMS), low: z.number().positive(), high: z.number().positive() })
      .refine(({ low, high }) => low < high, 'the lower figure first')
      .optional(),
  }),
  z.strictObject({ ...Common, kind: z.literal('animal-added'), animal: z.string().min(1).max(80).optional() }),
  z.strictObject({
    ...Common,
    kind: z.literal('check-in'),
    /** Nothing in it: all well. */
    signs: z.array(Seen).max(20).default([]),
    appetite: z.enum(APPETITES).default('normal'),
  }),
  z.strictObject({ ...Common, kind: z.literal('sign-seen'), ...Seen.shape }),
  z.strictObject({ ...Common, kind: z.literal('reading'), reading: Reading }),
  z.strictObject({ ...Common, kind: z.literal('step-done'), step: id }),
  z.strictObject({ ...Common, kind: z.literal('moved-tank') }),
  z.strictObject({ ...Common, kind: z.literal('dose-given') }),
  z.strictObject({ ...Common, kind: z.literal('shared-water') }),
  z.strictObject({ ...Common, kind: z.literal('death'), causeKnown: z.boolean() }),
  z.strictObject({ ...Common, kind: z.literal('note'), text: z.string().min(1).max(1000) }),
  z.strictObject({ ...Common, kind: z.literal('vet-said'), text: z.string().min(1).max(1000) }),
  z.strictObject({ ...Common, kind: z.literal('undone'), eventId: id }),
]);
export type PlanEvent = z.infer<typeof PlanEvent>;
export type EventOf<Kind extends PlanEvent['kind']> = Extract<PlanEvent, { kind: Kind }>;
