import { NO_EVIDENCE, type Evidence } from '../../../src/identification/evidence.ts';
import { createIdentifier, type Identified } from '../../../src/identification/identify.ts';
import type { ReadDescription } from '../../../src/identification/read-description.ts';
import { createCoralNames } from '../../../src/knowledge/coral-names.ts';
import { base, finder } from '../knowledge/real-base.ts';

/** The engine over the knowledge that is shipped. */
export const identifier = createIdentifier(base, finder);
export const model = identifier.model();
export { base };

const corals = createCoralNames(base);

export type Told = { text: string; near?: string; since?: Evidence['context']['since'] };

/** A description read and weighed as the command does it, without keeping it. */
export function described({ text, near, since }: Told): { read: ReadDescription; identified: Identified } {
  const read = identifier.read(text);
  const coral = (near ? corals.idOf(near) : undefined) ?? corals.inText(text);
  const when = since ?? read.evidence.context.since;
  const context = { ...(coral ? { near: coral } : {}), ...(when ? { since: when } : {}) };
  return { read, identified: identifier.identify({ ...read.evidence, context }) };
}

/** Evidence that holds what is given, and nothing else. */
export const evidence = (given: Partial<Evidence>): Evidence => ({ ...NO_EVIDENCE, ...given });

/** The probability of an entry. */
export const probabilityOf = ({ posterior }: Pick<Identified, 'posterior'>, id: string): number =>
  posterior.probabilities[model.indexOf.get(id) ?? -1] ?? NaN;
