import type { Ballot, Verdict } from './opinion.ts';

/** How a voter did in cases that a curator settled. */
export type VoterRecord = { right: number; wrong: number };

/** What a ballot is worth: its voter's record, and whether they are a curator. */
export type WeighedBallot = Ballot & { record: VoterRecord };

/** What the bot itself makes of the words: `pest` is 1 for what harms, 0 for what does not, 0.5 in between. */
export type CallPrior = { entries: readonly { id: string; probability: number; pest: number }[]; nothing: number };

export type Sureness = 'nobody' | 'fairly-sure' | 'leaning' | 'divided' | 'cannot-tell';

/** What the club and the bot together make of a case. The three sum to 1. */
export type Call = {
  pest: number;
  harmless: number;
  /** Something there is no entry for, or that the photo does not show. */
  unknown: number;
  /** The likeliest entries, best first. */
  entries: { id: string; probability: number }[];
  voters: number;
  sureness: Sureness;
  verdict: Verdict;
};

/** Beta priors on being right: a member starts at 2 in 3, a curator at 8 in 9. */
const MEMBER = { right: 2, wrong: 1 };
const CURATOR = { right: 8, wrong: 1 };

/** From here on the club is fairly sure, or leans. To call something harmless takes more than to call it a pest. */
const SURE = { pest: 0.85, harmless: 0.95 };
const LEANING = { pest: 0.65, harmless: 0.8 };
const DIVIDED = 0.25;
const MOST_ENTRIES = 3;

/** The mean of the Beta posterior on a voter being right. */
export function reliabilityOf({ right, wrong }: VoterRecord, isCurator: boolean): number {
  const prior = isCurator ? CURATOR : MEMBER;
  return (prior.right + right) / (prior.right + prior.wrong + right + wrong);
}

/** The weight of a ballot in log-odds. Who is wrong more often than right counts nothing, and never the other way round. */
export const weightOf = (record: VoterRecord, isCurator: boolean): number => {
  const reliability = reliabilityOf(record, isCurator);
  return Math.max(0, Math.log(reliability / (1 - reliability)));
};

/**
 * The posterior over entries and "something else" given the ballots, starting from the bot's own.
 *
 * A ballot of weight w moves the log-odds of pest against harmless by w, half up and half down; "can't tell" raises
 * what there is no entry for by w/2; an entry that is named rises by w, if it agrees with its ballot. The order of
 * ballots means nothing, and one of the asker is passed over.
 */
export function callOf(prior: CallPrior, ballots: readonly WeighedBallot[], askerId: string): Call {
  // Sums of floating-point numbers depend on their order; the same ballots must give the same call.
  const counted = ballots
    .filter(({ memberId }) => memberId !== askerId)
    .sort((one, other) => (one.memberId < other.memberId ? -1 : 1));
  let towardsPest = 0;
  let towardsNothing = 0;
  const named = new Map<string, { verdict: Verdict; weight: number }[]>();
  for (const { verdict, entry, record, isCurator } of counted) {
    const weight = weightOf(record, isCurator);
    if (verdict === 'pest') towardsPest += weight / 2;
    if (verdict === 'harmless') towardsPest -= weight / 2;
    if (verdict === 'cannot-tell') towardsNothing += weight / 2;
    if (entry !== null) named.set(entry, [...(named.get(entry) ?? []), { verdict, weight }]);
  }
  const scores = prior.entries.map(({ id, probability, pest }) => {
    const bonus = (named.get(id) ?? [])
      .filter(({ verdict }) => agrees(verdict, pest))
      .reduce((sum, { weight }) => sum + weight, 0);
    return Math.log(Math.max(1e-12, probability)) + (2 * pest - 1) * towardsPest + bonus;
  });
  const nothingScore = Math.log(Math.max(1e-12, prior.nothing)) + towardsNothing;
  const highest = scores.reduce((most, score) => Math.max(most, score), nothingScore);
  const weights = scores.map((score) => Math.exp(score - highest));
  const nothing = Math.exp(nothingScore - highest);
  const total = weights.reduce((sum, weight) => sum + weight, nothing);
  const pest = prior.entries.reduce((sum, entry, at) => sum + entry.pest * (weights[at] ?? 0), 0) / total;
  const unknown = nothing / total;
  const harmless = Math.max(0, 1 - pest - unknown);
  const entries = prior.entries
    .map(({ id }, at) => ({ id, probability: (weights[at] ?? 0) / total }))
    .sort((one, other) => other.probability - one.probability || (one.id < other.id ? -1 : 1))
    .slice(0, MOST_ENTRIES);
  return {
    pest,
    harmless,
    unknown,
    entries,
    voters: counted.length,
    ...inWords(pest, harmless, counted, towardsPest),
  };
}

/** Whether a named entry fits what its voter says of the animal. */
export const agrees = (verdict: Verdict, pest: number): boolean =>
  verdict === 'cannot-tell' || (verdict === 'pest' ? pest >= 0.5 : pest <= 0.5);

/**
 * The club is said to lean only where its own votes point: what the words alone suggest is the bot's opinion. And one
 * member is not the club: to be fairly sure takes two of one mind, or a curator.
 */
function inWords(
  pest: number,
  harmless: number,
  counted: readonly WeighedBallot[],
  towardsPest: number,
): Pick<Call, 'sureness' | 'verdict'> {
  if (counted.length === 0) return { sureness: 'nobody', verdict: 'cannot-tell' };
  const isEnough = (verdict: Verdict) => {
    const ofThisMind = counted.filter((ballot) => ballot.verdict === verdict);
    return ofThisMind.length >= 2 || ofThisMind.some(({ isCurator }) => isCurator);
  };
  const leans = (verdict: 'pest' | 'harmless', probability: number): Pick<Call, 'sureness' | 'verdict'> | null => {
    if (probability < LEANING[verdict]) return null;
    return { sureness: probability >= SURE[verdict] && isEnough(verdict) ? 'fairly-sure' : 'leaning', verdict };
  };
  const leaning = towardsPest > 0 ? leans('pest', pest) : towardsPest < 0 ? leans('harmless', harmless) : null;
  if (leaning) return leaning;
  const isAgainstTheWords = (towardsPest > 0 && harmless >= DIVIDED) || (towardsPest < 0 && pest >= DIVIDED);
  const isEven = pest >= DIVIDED && harmless >= DIVIDED;
  return { sureness: isAgainstTheWords || isEven ? 'divided' : 'cannot-tell', verdict: 'cannot-tell' };
}

/** The verdict that a case closes with when only votes decide: nothing is called harmless on a mere leaning. */
export function verdictByVote({ sureness, verdict }: Call, isDangerPossible: boolean): Verdict {
  if (verdict !== 'harmless') return verdict;
  return sureness === 'fairly-sure' && !isDangerPossible ? 'harmless' : 'cannot-tell';
}
