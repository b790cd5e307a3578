import { z } from 'zod';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import {
  askerView,
  noCaseView,
  notedView,
  noView,
  settleForm,
  unclearNameView,
  unclearSettlementView,
  whichForm,
} from './ballot.view.ts';
import { pestShare } from './bot-opinion.ts';
import { agrees } from './call.ts';
import { ballotView } from './case.view.ts';
import type { Cases } from './cases.worker.ts';
import { isCurator } from './curator.ts';
import { notForYouView } from './export.view.ts';
import { namedEntry } from './named-entry.ts';
import {
  mayNotVote,
  reopen,
  settle,
  undo,
  VERDICTS,
  withdraw,
  type Case,
  type Moved,
  type Verdict,
} from './opinion.ts';

export type BallotDeps = { base: KnowledgeBase; finder: Finder; cases: Cases };

const GivenVerdict = z.enum(VERDICTS);
const Settlement = z.object({
  verdict: GivenVerdict,
  entry: z.string().max(100).default(''),
  reason: z.string().trim().min(1).max(500),
});

type OnCase = (opinion: Case, args: readonly string[], request: Request, chosen: readonly string[]) => Answer;

/** Finds the case in the server of whoever presses; a case of another server is not there. */
const caseOf = ({ cases }: BallotDeps, id: string | undefined, { guildId }: Request): Case | undefined =>
  guildId === null ? undefined : cases.find(Number(id), guildId);

/** The buttons and the select of a ballot. Each checks for itself who may press it. */
export function ballotButtons(deps: BallotDeps): ButtonAct[] {
  const onCase = (act: string, run: OnCase): ButtonAct => ({
    act,
    run: ([id, ...args], request, chosen = []) => {
      const opinion = caseOf(deps, id, request);
      return opinion ? run(opinion, args, request, chosen) : noCaseView();
    },
  });
  return [
    onCase('opinion-vote', (opinion, [verdict], request) => {
      const given = GivenVerdict.safeParse(verdict);
      if (!given.success) return noCaseView();
      const entry = keptEntry(deps, opinion, request, given.data);
      return vote(deps, opinion, request, { verdict: given.data, entry }, 'on-the-ballot');
    }),
    onCase('opinion-which', (opinion, _args, { memberId }) => refusal(opinion, memberId) ?? whichForm(opinion.id)),
    onCase('opinion-chosen', (opinion, _args, request, [id = '']) => {
      const critter = deps.base.critters.get(id);
      return critter ? name(deps, opinion, request, critter, 'elsewhere') : noCaseView();
    }),
    onCase('opinion-settle', (opinion, [entry = ''], request) =>
      isCurator(request) ? settleForm(opinion.id, deps.base.critters.get(entry)) : notForYouView(),
    ),
    onCase('opinion-withdraw', (opinion, _args, request) =>
      step(deps, opinion, request, (at) => withdraw(at, request.memberId, request.now)),
    ),
    onCase('opinion-reopen', (opinion, _args, request) =>
      step(deps, opinion, request, (at) => reopen(at, request.memberId, isCurator(request), request.now)),
    ),
    onCase('opinion-undo', (opinion, _args, request) =>
      isCurator(request) ? step(deps, opinion, request, (at) => undo(at, request.now)) : notForYouView(),
    ),
  ];
}

/** What comes back from the forms of a ballot. */
export function ballotForms(deps: BallotDeps): FormAct[] {
  const { base, finder } = deps;
  return [
    {
      act: 'opinion-name',
      run: ([id], { entry = '' }, request) => {
        const opinion = caseOf(deps, id, request);
        if (!opinion) return noCaseView();
        const named = namedEntry(base, finder, entry);
        return named.kind === 'clear'
          ? name(deps, opinion, request, named.critter, 'on-the-ballot')
          : (refusal(opinion, request.memberId) ?? unclearNameView(opinion.id, entry, named.nearest));
      },
    },
    {
      act: 'opinion-settled',
      run: ([id], filled, request) => {
        const opinion = caseOf(deps, id, request);
        if (!opinion) return noCaseView();
        if (!isCurator(request)) return notForYouView();
        const { verdict, entry, reason } = Settlement.parse(filled);
        const named = entry.trim() === '' ? null : namedEntry(base, finder, entry);
        if (named?.kind === 'unclear') return unclearSettlementView(opinion.id, entry, named.nearest);
        const by = { id: request.memberId, name: request.memberName };
        const settlement = { verdict, reason, entry: named?.critter.id ?? null };
        return step(deps, opinion, request, (at) => settle(at, by, settlement, request.now));
      },
    },
  ];
}

/** Why a member may not vote, in words; null when they may. */
function refusal(opinion: Case, memberId: string): Answer | null {
  const why = mayNotVote(opinion, memberId);
  if (why === null) return null;
  return why === 'asker' ? askerView() : noView('closed');
}

type Where = Parameters<Cases['cast']>[2];

function vote(
  { cases }: BallotDeps,
  opinion: Case,
  request: Request,
  ballot: { verdict: Verdict; entry: string | null },
  where: Where,
): Answer {
  const { memberId, now } = request;
  const refused = refusal(opinion, memberId);
  if (refused) return refused;
  const shown = cases.cast(opinion, { memberId, isCurator: isCurator(request), ...ballot }, where, now);
  return { ...ballotView(shown), replaces: true };
}

/** A named animal is kept with the vote; without a vote it becomes one. */
function name(deps: BallotDeps, opinion: Case, request: Request, critter: Critter, where: Where): Answer {
  const verdict = deps.cases.ballotOf(opinion, request.memberId)?.verdict ?? verdictOf(critter);
  const voted = vote(deps, opinion, request, { verdict, entry: critter.id }, where);
  const isRefused = refusal(opinion, request.memberId) !== null;
  return where === 'on-the-ballot' || isRefused ? voted : notedView(critter);
}

/** A name given earlier stays as long as it fits what the member now says. */
function keptEntry({ base, cases }: BallotDeps, opinion: Case, { memberId }: Request, verdict: Verdict): string | null {
  const entry = cases.ballotOf(opinion, memberId)?.entry ?? null;
  const critter = entry === null ? undefined : base.critters.get(entry);
  return critter && agrees(verdict, pestShare(critter)) ? entry : null;
}

function verdictOf(critter: Critter): Verdict {
  const share = pestShare(critter);
  return share === 0.5 ? 'cannot-tell' : share > 0.5 ? 'pest' : 'harmless';
}

/** Takes a step on the case as it now is; the message that was pressed shows the outcome. */
function step({ cases }: BallotDeps, { id, guildId }: Case, { now }: Request, decide: (at: Case) => Moved): Answer {
  const result = cases.move(id, guildId, decide, now);
  return result.kind === 'moved' ? { ...ballotView(cases.show(result.opinion)), replaces: true } : noView(result.why);
}
