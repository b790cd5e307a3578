import { adviceOf } from '../critters/advice.ts';
import { hoursInWords } from '../club/hours-in-words.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Call } from './call.ts';
import type { Ballot, Closed, Verdict } from './opinion.ts';

export const VERDICT_WORDS: Record<Verdict, string> = {
  pest: 'Pest',
  harmless: 'Harmless',
  'cannot-tell': 'Can’t tell',
};

const NO_NAME = md``;

const HOUR_MS = 3_600_000;

/** How long voting takes, in words. */
export const openTime = (openForMs: number): string => hoursInWords(Math.max(1, Math.round(openForMs / HOUR_MS)));

/** The count as everybody sees it. */
export function tallyText(ballots: readonly Ballot[]): Markdown {
  const count = (verdict: Verdict) => ballots.filter((ballot) => ballot.verdict === verdict).length;
  return md`**Pest ${count('pest')} · Harmless ${count('harmless')} · Can’t tell ${count('cannot-tell')}**`;
}

/** How sure the club is, in words. */
export function callText({ sureness, verdict }: Call): Markdown {
  const is = verdict === 'pest' ? 'a pest' : 'harmless';
  switch (sureness) {
    case 'nobody':
      return md`Nobody has voted yet.`;
    case 'fairly-sure':
      return md`The club is fairly sure that it is ${is}.`;
    case 'leaning':
      return md`The club leans towards: it is ${is}. That is not enough to act on.`;
    case 'divided':
      return md`The club is divided.`;
    case 'cannot-tell':
      return md`The club cannot tell yet.`;
  }
}

/** The name of an entry with its advice; nothing when there is none, or it is not in the base any more. */
export function entryText(base: KnowledgeBase, id: string | null): Markdown {
  const critter = id === null ? undefined : base.critters.get(id);
  return critter ? md`**${critter.name}** (${adviceOf(critter)})` : NO_NAME;
}

/** How a case ended, in one or two sentences. */
export function closedText(base: KnowledgeBase, { how, verdict, entry, reason, byName }: Closed): Markdown {
  const name = entryText(base, entry);
  const says = md`**${verdict ? VERDICT_WORDS[verdict] : ''}**${name === NO_NAME ? md`` : md`: ${name}`}`;
  switch (how) {
    case 'settled':
      return md`Settled by ${byName ?? 'a curator'}: ${says}. Reason: ${reason ?? ''}`;
    case 'by-vote':
      return md`Closed by vote: ${says}.`;
    case 'withdrawn':
      return md`Withdrawn by the asker.`;
  }
}
