import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct } from '../discord/command.ts';
import type { Answer, Choice, MessageView, Request } from '../discord/message-view.ts';
import { CORAL_KINDS, GROWTH_FORMS } from '../knowledge/coral-words.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { localDate } from '../schedule/local-time.ts';
import type { MemberZoneStore } from '../upkeep/member-zone.store.ts';
import { knownOf } from './find.ts';
import { coralNames } from './find-names.ts';
import { findFilter, MOST_TEXT, readFilter, shortened, type FindFilter } from './find-filter.ts';
import { askedOf } from './find-match.ts';
import { nearestTo } from './find-near.ts';
import { pageOf, readBookmark, type Bookmark } from './find-page.ts';
import type { FindStore } from './find.store.ts';
import { findNeedsAClub, findView, foundGoneView, foundOfferView, nothingFoundView } from './find.view.ts';
import { LIGHTS } from './offer.ts';
import { GROUPS } from './want-words.ts';
import type { OfferStore } from './offer.store.ts';

export type FindDeps = {
  base: KnowledgeBase;
  listings: FindStore;
  offers: Pick<OfferStore, 'find'>;
  /** Members between whom and the asker a block stands, whoever set it. */
  blockedWith: (guildId: string, memberId: string) => ReadonlySet<string>;
  zones: Pick<MemberZoneStore, 'of'>;
  /** Puts words on what somebody looks for, and answers as `frag want` does. */
  want: (words: string, request: Request) => Answer;
};

/** Members between whom and one a block stands, out of pairs "a/b" that name both ways. */
export const blockedAmong = (pairs: ReadonlySet<string>, memberId: string): ReadonlySet<string> =>
  new Set([...pairs].flatMap((pair) => (pair.startsWith(`${memberId}/`) ? [pair.slice(memberId.length + 1)] : [])));

/** What `frag want` answers to words that stand on a button. */
export function askedAsWant(command: AnyCommand): FindDeps['want'] {
  return (coral, request) => {
    const parsed = command.parse({ coral });
    if (!parsed.ok) throw new Error('a want could not be read', { cause: parsed.error });
    return parsed.run(request);
  };
}

const MOST_CHOICES = 25;
const OptionalFlag = z.enum(['yes', 'no']).optional();

/** `/frag find`: looks through what club mates offer. */
export function findCommands(deps: Omit<FindDeps, 'want'>): AnyCommand[] {
  return [
    defineCommand({
      name: 'frag find',
      description: 'Look through the frags that club mates offer',
      options: [
        {
          name: 'text',
          description: 'A name or words, such as torch, teal or pulsing; left out: everything',
          required: false,
          autocomplete: true,
          mostCharacters: 60,
        },
        { name: 'light', description: 'The light it stands in', required: false, choices: LIGHTS },
        { name: 'growth', description: 'How it grows', required: false, choices: GROWTH_FORMS },
        { name: 'kind', description: 'What sort of animal', required: false, choices: CORAL_KINDS },
        { name: 'area', description: 'Where it can be picked up', required: false, mostCharacters: 60 },
        { name: 'settled', description: 'Only pieces that have settled', required: false, choices: ['yes', 'no'] },
        { name: 'free', description: 'Only what is given away', required: false, choices: ['yes', 'no'] },
      ],
      input: z
        .object({
          text: z.string().optional(),
          light: z.enum(LIGHTS).optional(),
          growth: z.enum(GROWTH_FORMS).optional(),
          kind: z.enum(CORAL_KINDS).optional(),
          area: z.string().optional(),
          settled: OptionalFlag,
          free: OptionalFlag,
        })
        .transform(({ text = '', area = '', light = null, growth = null, kind = null, settled, free }) =>
          findFilter({ text, area, light, growth, kind, settled: settled === 'yes', free: free === 'yes' }),
        ),
      run: (filter, request) => list(deps, filter, null, request),
      suggest: (option, typed, request) => (option === 'text' ? suggestions(deps, typed, request) : []),
    }),
  ];
}

/** Turning pages, and looking at one of what was found. */
export function findButtons(deps: FindDeps): ButtonAct[] {
  return [
    {
      act: 'frag-find',
      run: ([bookmark = '', ...filter], request) => ({
        ...list(deps, readFilter(filter), readBookmark(bookmark), request),
        replaces: true,
      }),
    },
    { act: 'frag-want-add', run: ([words = ''], request) => deps.want(words, request) },
    {
      act: 'frag-find-one',
      run: (back, { guildId, memberId, now }, [chosen] = []) => {
        if (guildId === null) return findNeedsAClub();
        const offer = deps.offers.find(Number(chosen), guildId);
        const open = offer?.state === 'open' && offer.expiresAt > now;
        if (!offer || !open || deps.blockedWith(guildId, memberId).has(offer.memberId)) return foundGoneView(back);
        return foundOfferView(deps.base, offer, { askerId: memberId, now, back });
      },
    },
  ];
}

function list(
  deps: Omit<FindDeps, 'want'>,
  filter: FindFilter,
  bookmark: Bookmark | null,
  request: Request,
): MessageView {
  const { guildId, memberId, now } = request;
  if (guildId === null) return findNeedsAClub();
  const index = deps.listings.index(guildId, now);
  const asked = askedOf(filter, deps.base);
  const { mark, day } = bookmark ?? {
    mark: index.newest(),
    day: localDate(now, deps.zones.of(memberId)?.zone ?? 'UTC'),
  };
  const search = { now, day, mark, without: deps.blockedWith(guildId, memberId) };
  const found = index.search(asked, search);
  if (found.length > 0)
    return findView({ filter, page: pageOf(found, bookmark), turning: { mark, day }, askerId: memberId, now });
  const near = nearestTo(index, asked, search, deps.base);
  return nothingFoundView(filter, near, { askerId: memberId, now, day }, wantArgs(filter));
}

/** What a want made of a filter says: the words, or else the group. */
function wantArgs({ text, growth, kind }: FindFilter): string[] | null {
  const group = growth ?? kind;
  const words = text || (group === null ? '' : (GROUPS[group] ?? group));
  return words === '' ? null : [words];
}

/** Corals of the books, and names that stand on offers now. */
function suggestions(
  { base, listings, blockedWith }: Omit<FindDeps, 'want'>,
  typed: string,
  request: Request,
): Choice[] {
  const { guildId, memberId, now } = request;
  const choices = new Map<string, Choice>();
  const add = (name: string, value: string) => {
    if (value !== '' && !choices.has(value)) choices.set(value, { name: name.slice(0, 100), value });
  };
  if (guildId !== null) {
    const without = blockedWith(guildId, memberId);
    const index = listings.index(guildId, now);
    const day = localDate(now, 'UTC');
    const asked = askedOf(findFilter({ text: typed }), base);
    for (const { offer } of index.search(asked, { now, day, mark: Infinity, without }).slice(0, 200)) {
      if (choices.size >= MOST_CHOICES - 10) break;
      const { coral } = knownOf(offer, base);
      add(`${offer.details.name} (on offer)`, shortened(offer.details.name, MOST_TEXT) || (coral ?? ''));
    }
  }
  for (const { name, value } of coralNames(base).suggest(typed)) add(name, value);
  return [...choices.values()].slice(0, MOST_CHOICES);
}
