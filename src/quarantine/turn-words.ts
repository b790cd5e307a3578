import type { StepState } from './plan-state.ts';

type Turn = NonNullable<StepState['run']>;

/** "of 4", or "of at least 7" where turns go on until a hold is reached. */
export const ofWords = ({ of, atLeast }: Pick<Turn, 'of' | 'atLeast'>): string =>
  `of ${atLeast ? 'at least ' : ''}${of}`;

/** "3 of 4", "3 of at least 7". */
export const turnOf = (run: Turn): string => `${run.turn} ${ofWords(run)}`;
