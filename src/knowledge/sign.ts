import { z } from 'zod';
import { entryId, paragraph } from './critter.ts';
import { STANDINGS_OF_SOURCES } from './source.ts';

export const SIGN_GROUPS = ['fish', 'coral', 'invertebrate', 'human', 'pet'] as const;
export const URGENCIES = ['emergency', 'urgent', 'soon', 'watch'] as const;
export const WEIGHTS = ['strong', 'weak'] as const;

/** One reply to the question of a sign, as it stands on a button. "Can't tell" is always offered beside these. */
const Reply = z.strictObject({
  says: z.string().min(2).max(40),
  /** Conditions that cannot be it then, by their wording in `fits`. */
  rulesOut: z.array(z.string()).default([]),
  /** Conditions that it speaks for: they go first among rows of one urgency. */
  pointsTo: z.array(z.string()).default([]),
  /** What was seen is one of these signs and not this one. */
  insteadSee: z.array(entryId).default([]),
});
export type Reply = z.infer<typeof Reply>;

const Fields = z.strictObject({
  group: z.enum(SIGN_GROUPS),
  name: z.string().min(3).max(80),
  /** What members call it. */
  aliases: z.array(z.string().min(2).max(60)).default([]),
  /** Asked before the urgency is shown: another cause that has to be ruled out first. */
  checkFirst: paragraph(240).optional(),
  /** The replies to that question. */
  answers: z.array(Reply).max(4).default([]),
  /** Lying, hiding or slime: what rest is normal for these fish is told before any alarm. */
  mayBeRest: z.boolean().default(false),
  fits: z
    .array(
      z.strictObject({
        /** What it may fit, as it stands after "may fit". */
        condition: z.string().min(3).max(120),
        weight: z.enum(WEIGHTS),
        /** How to tell it from the other rows. */
        tell: paragraph(300),
        urgency: z.enum(URGENCIES),
        /** What to do first; never a dose of a medicine. */
        first: paragraph(400),
        /** When a vet has to see it: "today", "if it spreads"; absent: not needed. */
        vet: z.string().min(2).max(120).optional(),
        /** Whether it starts a hold anew. */
        restarts: z.boolean(),
        /** Nothing is wrong then: the animal does so by nature. */
        normal: z.boolean().default(false),
        critter: entryId.optional(),
        /** The plan that keeps the hours of it. */
        plan: entryId.optional(),
        firstAid: z.array(entryId).default([]),
        source: entryId,
        standing: z.enum(STANDINGS_OF_SOURCES),
      }),
    )
    .min(1),
});

/** One file in knowledge/signs/: something a keeper sees, and what it may fit. Never a diagnosis. */
export const Sign = Fields.superRefine(({ checkFirst, answers, fits }, context) => {
  const complain = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
  if ((checkFirst === undefined) !== (answers.length === 0))
    complain(['answers'], 'checkFirst needs answers, and answers need checkFirst');
  if (new Set(answers.map(({ says }) => says)).size !== answers.length) complain(['answers'], 'each answer once');
  const conditions = fits.map(({ condition }) => condition);
  for (const [at, { rulesOut, pointsTo, insteadSee }] of answers.entries()) {
    for (const [key, named] of Object.entries({ rulesOut, pointsTo })) {
      for (const each of named) {
        if (!conditions.includes(each))
          complain(
            ['answers', at, key],
            `came "${each}", expected the condition of one of this sign's fits: ${conditions.join(' | ')}`,
          );
      }
    }
    for (const each of pointsTo)
      if (rulesOut.includes(each)) complain(['answers', at, 'pointsTo'], `"${each}" is ruled out by the same answer`);
    if (insteadSee.length === 0 && conditions.every((each) => rulesOut.includes(each)))
      complain(['answers', at, 'rulesOut'], 'an answer that rules out every fit has to name what it is in insteadSee');
  }
});
export type SignData = z.infer<typeof Sign>;
export type Sign = SignData & { id: string };
