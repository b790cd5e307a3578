import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Choice, WorkView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { coralNamed, coralNames } from '../swaps/find-names.ts';
import type { FindStore } from '../swaps/find.store.ts';
import type { Offer } from '../swaps/offer.ts';
import type { WantStore } from '../swaps/want.store.ts';
import { besideView, noSuchCoralView } from './beside.view.ts';
import { COLOUR_WORDS } from './colour-words.ts';

export type BesideDeps = {
  base: KnowledgeBase;
  listings: FindStore;
  wants: Pick<WantStore, 'own'>;
  /** Members between whom and the asker a block stands, whoever set it. */
  blockedWith: (guildId: string, memberId: string) => ReadonlySet<string>;
};

const MOST_CHOICES = 25;

/** `/frag beside`: what to put next to a coral. Colours are worked out by a library that is loaded with the first question. */
export function besideCommand({ base, listings, wants, blockedWith }: BesideDeps): AnyCommand {
  return defineCommand({
    name: 'frag beside',
    description: 'What to put next to a coral so that its colour stands out, and how far off',
    options: [
      { name: 'coral', description: 'The coral that stands there', required: true, autocomplete: true, mostCharacters: 60 }, // prettier-ignore
      { name: 'colour', description: 'Its colour in a word: teal, salmon, toxic green, rainbow', required: false, autocomplete: true, mostCharacters: 40 }, // prettier-ignore
    ],
    input: z.object({ coral: z.string(), colour: z.string().default('') }),
    run: (given, { guildId, memberId, now }) => {
      const id = coralNamed(base, given.coral);
      const coral = id === null ? undefined : base.corals.get(id);
      if (!coral) return noSuchCoralView(given.coral);
      const offers = guildId === null ? [] : fromOthers(guildId, memberId, now);
      const own = guildId === null ? [] : wants.own(guildId, memberId);
      const work = async () => {
        const { beside } = await import('./beside.ts');
        return besideView(beside(base, { coral, colour: given.colour, offers, wants: own }), given.colour.trim());
      };
      return { kind: 'work', audience: 'member', work } satisfies WorkView;
    },
    suggest: (option, typed) => (option === 'coral' ? coralNames(base).suggest(typed) : colourChoices(typed)),
  });

  function fromOthers(guildId: string, memberId: string, now: Date): Offer[] {
    const without = blockedWith(guildId, memberId);
    const stands = ({ left, expiresAt, memberId: by }: Offer) =>
      left > 0 && expiresAt > now && by !== memberId && !without.has(by);
    return listings.index(guildId, now).offers().filter(stands);
  }
}

function colourChoices(typed: string): Choice[] {
  const key = normaliseName(typed);
  const names = COLOUR_WORDS.flatMap(({ word, also }) => (key === '' ? [word] : [word, ...also]));
  const first = names.filter((name) => normaliseName(name).startsWith(key));
  const later = names.filter((name) => !first.includes(name) && normaliseName(name).includes(key));
  return [...first, ...later].slice(0, MOST_CHOICES).map((name) => ({ name, value: name }));
}
