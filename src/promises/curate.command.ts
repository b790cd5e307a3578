import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct, type FormAct, type OptionSpec } from '../discord/command.ts';
import { md, type Answer, type Choice, type MessageView, type Request } from '../discord/message-view.ts';
import type { CoralNames } from '../knowledge/coral-names.ts';
import { isCurator } from '../opinions/curator.ts';
import type { Offer } from '../swaps/offer.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import type { CuratedStore } from './curated.store.ts';
import { CURATOR_ACTS, type CuratorAct, type Curating, type Report } from './curated.ts';
import * as view from './curating.view.ts';
import type { Curates, CuratedResult } from './curating.worker.ts';
import { offerChoices, offerMeant } from './offer-option.ts';
import type { PromiseStore } from './promise.store.ts';
import { needsAClubView, noOfferView, saysView } from './promise.view.ts';

export type CurateDeps = {
  offers: OfferStore;
  promises: PromiseStore;
  corals: CoralNames;
  kept: CuratedStore;
  curates: Curates;
};

const DOES = [...CURATOR_ACTS, 'undo'] as const;
const OFFER: OptionSpec = { name: 'offer', description: 'Which offer', required: true, autocomplete: true };

const Input = z.object({
  offer: z.string().trim().min(1).max(100),
  act: z.enum(DOES),
  reason: z.string().trim().min(1).max(view.MOST_REASON),
  coral: z.string().trim().max(100).optional(),
  into: z.string().trim().max(100).optional(),
  name: z.string().trim().min(1).max(60).optional(),
  special: z.string().trim().min(1).max(300).optional(),
});

const result = (done: CuratedResult, act: CuratorAct | 'undo'): MessageView =>
  done.kind === 'done' ? view.doneView(done.offer, act) : view.notCuratedView(done.why);

/** `/frag curate | reports | report`. */
export function curateCommands(deps: CurateDeps): AnyCommand[] {
  const { offers, kept, curates } = deps;
  const known = (guildId: string, now: Date): Offer[] => {
    const reported = kept.openReports(guildId).flatMap(({ offerId }) => offers.find(offerId, guildId) ?? []);
    return [...new Map([...reported, ...offers.open(guildId, now)].map((offer) => [offer.id, offer])).values()];
  };
  const choices = (typed: string, { guildId, now }: Request): Choice[] =>
    guildId === null ? [] : offerChoices(known(guildId, now), typed);
  const meant = (typed: string, guildId: string, now: Date): Offer | undefined =>
    offerMeant(known(guildId, now), typed) ?? offers.find(Number(typed), guildId);

  return [
    defineCommand({
      name: 'frag curate',
      description: 'For curators: put a listing right, with a reason that its keeper reads',
      options: [
        OFFER,
        { name: 'act', description: 'What to do', required: true, choices: DOES },
        { name: 'reason', description: 'Why; its keeper reads it', required: true, mostCharacters: view.MOST_REASON },
        { name: 'coral', description: 'With map: which coral it is', required: false, autocomplete: true },
        {
          name: 'into',
          description: 'With merge: the other offer of the same member',
          required: false,
          autocomplete: true,
        },
        { name: 'name', description: 'With edit: the new name', required: false, mostCharacters: 60 },
        { name: 'special', description: 'With edit: the new description', required: false, mostCharacters: 300 },
      ],
      input: Input,
      run: (given, request): Answer => {
        const { guildId, memberId, now } = request;
        if (guildId === null) return needsAClubView();
        if (!isCurator(request)) return view.forCuratorsView();
        const offer = meant(given.offer, guildId, now);
        if (!offer) return noOfferView(given.offer);
        if (given.act === 'undo') return result(curates.undo(offer.id, guildId, memberId, now), 'undo');
        const curating = curatingOf(deps, given, given.act, guildId, now, meant);
        if ('blocks' in curating) return curating;
        return result(curates.curate(offer.id, guildId, curating, memberId, given.reason, now), given.act);
      },
      suggest: (option, typed, request) =>
        !isCurator(request) ? [] : option === 'coral' ? deps.corals.suggest(typed) : choices(typed, request),
    }),
    defineCommand({
      name: 'frag reports',
      description: 'For curators: what members reported',
      options: [
        { kind: 'whole-number', name: 'report', description: 'One of them by its number', required: false, least: 1 },
        {
          name: 'settle',
          description: 'What you found; whoever reported it reads this',
          required: false,
          mostCharacters: view.MOST_REASON,
        },
      ],
      input: z.object({
        report: z.int().optional(),
        settle: z.string().trim().min(1).max(view.MOST_REASON).optional(),
      }),
      run: ({ report: id, settle }, request): Answer => {
        const { guildId, memberId, now } = request;
        if (guildId === null) return needsAClubView();
        if (!isCurator(request)) return view.forCuratorsView();
        if (id === undefined) return reportsOf(deps, guildId);
        return onReport(deps, id, guildId, (report, offer) =>
          settle === undefined ? view.reportView(report, offer) : settled(deps, report, offer, memberId, settle, now),
        );
      },
    }),
    defineCommand({
      name: 'frag report',
      description: 'Tells the curators that something is wrong with a listing',
      options: [
        OFFER,
        {
          name: 'what',
          description: 'What is wrong, in a few words',
          required: false,
          mostCharacters: view.MOST_WORDS,
        },
      ],
      input: z.object({
        offer: z.string().trim().min(1).max(100),
        what: z.string().trim().max(view.MOST_WORDS).optional(),
      }),
      run: ({ offer: typed, what = '' }, { guildId, memberId, now }): Answer => {
        if (guildId === null) return needsAClubView();
        const offer = meant(typed, guildId, now);
        if (!offer) return noOfferView(typed);
        if (what === '') return view.reportForm(offer);
        curates.report(offer, memberId, what, now);
        return view.reportedView();
      },
      suggest: (_option, typed, request) => choices(typed, request),
    }),
  ];
}

/** What is asked for; an answer in its place says what is missing. */
function curatingOf(
  { corals }: CurateDeps,
  given: z.output<typeof Input>,
  act: CuratorAct,
  guildId: string,
  now: Date,
  meant: (typed: string, guildId: string, now: Date) => Offer | undefined,
): Curating | MessageView {
  switch (act) {
    case 'hide':
    case 'show':
      return { act };
    case 'map': {
      const coral = given.coral === undefined ? undefined : corals.idOf(given.coral);
      if (coral) return { act, coral };
      return saysView('Which coral?', md`Add **coral:** and choose one from the list. Nothing was changed.`);
    }
    case 'merge': {
      const into = given.into === undefined ? undefined : meant(given.into, guildId, now);
      if (into) return { act, into };
      return saysView(
        'Into which offer?',
        md`Add **into:** with the other offer of the same member. Nothing was changed.`,
      );
    }
    case 'edit':
      if (given.name === undefined && given.special === undefined)
        return saysView('Which words?', md`Add **name:** or **special:** with the new words. Nothing was changed.`);
      return { act, name: given.name, special: given.special };
  }
}

function reportsOf({ kept, offers, promises }: CurateDeps, guildId: string): MessageView {
  const withOffer = <T>(list: readonly T[], offerId: (each: T) => number | undefined) =>
    list.flatMap((each) => {
      const id = offerId(each);
      const offer = id === undefined ? undefined : offers.find(id, guildId);
      return offer ? [{ each, offer }] : [];
    });
  return view.reportsView(
    withOffer(kept.openReports(guildId), ({ offerId }) => offerId).map(({ each, offer }) => ({ report: each, offer })),
    withOffer(promises.blocks.noShows(guildId), ({ promiseId }) => promises.find(promiseId, guildId)?.offerId).map(
      ({ each, offer }) => ({ noShow: each, offer }),
    ),
  );
}

function onReport(
  { kept, offers }: CurateDeps,
  id: number,
  guildId: string,
  run: (report: Report, offer: Offer) => Answer,
): Answer {
  const report = kept.findReport(id, guildId);
  const offer = report && offers.find(report.offerId, guildId);
  return report && offer ? run(report, offer) : view.noReportView();
}

/** Nobody settles what was said of their own offer. */
const settled = (
  { curates }: CurateDeps,
  report: Report,
  offer: Offer,
  byId: string,
  how: string,
  now: Date,
): MessageView =>
  offer.memberId === byId ? view.notCuratedView('own') : view.settledView(curates.settle(report, byId, how, now));

type InClub = (guildId: string, request: Request, arg: string, chosen: string | undefined) => Answer;

export function curateButtons(deps: CurateDeps): ButtonAct[] {
  const { offers, curates } = deps;
  const inClub = (act: string, forCurators: boolean, run: InClub): ButtonAct => ({
    act,
    run: ([arg = ''], request, [chosen] = []) => {
      if (request.guildId === null) return needsAClubView();
      return forCurators && !isCurator(request) ? view.forCuratorsView() : run(request.guildId, request, arg, chosen);
    },
  });
  return [
    inClub('frag-report', false, (guildId, _request, id) => {
      const offer = offers.find(Number(id), guildId);
      return offer ? view.reportForm(offer) : noOfferView();
    }),
    inClub('frag-report-open', true, (guildId, _request, _arg, chosen) =>
      onReport(deps, Number(chosen), guildId, view.reportView),
    ),
    inClub('frag-hide', true, (guildId, _request, id) =>
      offers.find(Number(id), guildId) ? view.reasonForm('hide', Number(id)) : noOfferView(),
    ),
    inClub('frag-settle', true, (guildId, _request, id) =>
      onReport(deps, Number(id), guildId, ({ id: reportId }) => view.reasonForm('settle', reportId)),
    ),
    inClub('frag-curator-undo', true, (guildId, { memberId, now }, id) =>
      result(curates.undo(Number(id), guildId, memberId, now), 'undo'),
    ),
  ];
}

export const curateForms = (deps: CurateDeps): FormAct[] => [
  {
    act: 'frag-reported',
    run: ([id], filled, { guildId, memberId, now }) => {
      const offer = guildId === null ? undefined : deps.offers.find(Number(id), guildId);
      if (!offer) return noOfferView();
      const words = (filled[view.WORDS_FIELD] ?? '').trim().slice(0, view.MOST_WORDS);
      if (words === '') return view.noWordsView();
      deps.curates.report(offer, memberId, words, now);
      return view.reportedView();
    },
  },
  {
    act: 'frag-curated',
    run: ([what, id], filled, request) => {
      const { guildId, memberId, now } = request;
      if (guildId === null) return needsAClubView();
      if (!isCurator(request)) return view.forCuratorsView();
      const reason = (filled[view.REASON_FIELD] ?? '').trim().slice(0, view.MOST_REASON);
      if (reason === '') return saysView('A reason, please', md`Somebody reads it. Nothing was changed.`);
      if (what === 'hide')
        return result(deps.curates.curate(Number(id), guildId, { act: 'hide' }, memberId, reason, now), 'hide');
      return onReport(deps, Number(id), guildId, (report, offer) =>
        settled(deps, report, offer, memberId, reason, now),
      );
    },
  },
];
