import { z } from 'zod';
import { defineCommand, type AnyCommand, type ButtonAct, type FormAct } from '../discord/command.ts';
import type { Answer, Choice, Request } from '../discord/message-view.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { fits } from './find.ts';
import { needsAClubView } from './draft.view.ts';
import { coralChoices } from './offer-choices.ts';
import type { OfferDeps } from './offering.command.ts';
import { MOST_WANTS, type Offer, type Want } from './offer.ts';
import { endedWantView, farForm, noSuchWantView, tooManyWantsView, wantedView, whatView } from './want.view.ts';
import { GROUPS, readDrive, readWanted } from './want-words.ts';

const DRIVES = ['5 km', '10 km', '20 km', '30 km', '50 km', '100 km', '200 km', '10 miles', '20 miles', '30 miles', '60 miles']; // prettier-ignore
const MOST_CHOICES = 25;

/** Offers that a want is met by now, those with a piece left first; never between members who blocked each other. */
function fitting({ base, offers, promises }: OfferDeps, want: Want, now: Date): Offer[] {
  const apart = promises.blocked(want.guildId);
  return offers
    .open(want.guildId, now)
    .filter((offer) => !apart.has(`${want.memberId}/${offer.memberId}`) && fits(want, offer, base))
    .sort((one, other) => Number(other.left > 0) - Number(one.left > 0));
}

const sameAs =
  ({ coral, group, words }: Pick<Want, 'coral' | 'group' | 'words'>) =>
  (want: Want) =>
    want.coral === coral && want.group === group && normaliseName(want.words) === normaliseName(words);

/** `/frag want`: says at once what is there, and from then on tells when something comes. */
export function wantCommand(deps: OfferDeps): AnyCommand {
  return defineCommand({
    name: 'frag want',
    description: 'Say which coral you look for: what is there now, and a word when one comes',
    options: [
      { name: 'coral', description: 'A coral, a group such as “any soft coral”, or your words', required: true, autocomplete: true, mostCharacters: 60 }, // prettier-ignore
      { name: 'drive', description: 'How far you would drive: "30 km", "20 miles"', required: false, autocomplete: true, mostCharacters: 20 }, // prettier-ignore
    ],
    input: z.object({ coral: z.string(), drive: z.string().optional() }),
    run: ({ coral, drive }, { guildId, memberId, now }) => {
      if (guildId === null) return needsAClubView();
      const wanted = readWanted(deps.base, coral);
      if (!wanted) return whatView();
      const driveKm = drive === undefined ? null : readDrive(drive);
      const own = deps.wants.own(guildId, memberId);
      const before = own.find(sameAs(wanted));
      if (!before && own.length >= MOST_WANTS) return tooManyWantsView();
      const want = before ?? deps.wants.add({ ...wanted, guildId, memberId, driveKm, createdAt: now });
      if (before && driveKm !== null) deps.wants.drive(before, driveKm);
      const shown = before && driveKm !== null ? { ...want, driveKm } : want;
      const unread = drive !== undefined && driveKm === null ? drive : null;
      return wantedView(shown, fitting(deps, want, now), { isNew: !before, drive: unread });
    },
    suggest: (option, typed): Choice[] => {
      const key = normaliseName(typed);
      if (option === 'drive')
        return DRIVES.filter((each) => each.includes(typed.trim())).map((each) => ({ name: each, value: each }));
      const groups = Object.values(GROUPS)
        .filter((words) => key === '' || normaliseName(words).includes(key))
        .map((words) => ({ name: words, value: words }));
      return [...groups.slice(0, 12), ...coralChoices(deps.base, deps.corals, typed)].slice(0, MOST_CHOICES);
    },
  });
}

/** A want that an option means, chosen from the list or by its words. */
export const wantMeant = (wants: readonly Want[], typed: string): Want | undefined =>
  wants.find(({ id }) => `want ${id}` === typed.trim()) ??
  wants.find(({ words }) => normaliseName(words) === normaliseName(typed));

export const wantChoices = (wants: readonly Want[], typed: string): Choice[] =>
  wants
    .filter(({ words }) => normaliseName(words).includes(normaliseName(typed)))
    .map(({ id, words }) => ({ name: `You look for: ${words}`.slice(0, 100), value: `want ${id}` }));

export function endWant({ wants }: OfferDeps, want: Want): Answer {
  wants.set(want, 'withdrawn');
  return endedWantView(want);
}

const ownWant = ({ wants }: OfferDeps, id: string | undefined, { guildId, memberId }: Request): Want | undefined => {
  const want = guildId === null ? undefined : wants.find(Number(id), guildId);
  return want?.memberId === memberId ? want : undefined;
};

/** The buttons under what somebody looks for. */
export const wantButtons = (deps: OfferDeps): ButtonAct[] => [
  {
    act: 'frag-want-far',
    run: ([id], request) => {
      const want = ownWant(deps, id, request);
      return want ? farForm(want) : noSuchWantView();
    },
  },
  {
    act: 'frag-want-end',
    run: ([id], request, chosen = []) => {
      const want = ownWant(deps, chosen[0] ?? id, request);
      return want ? endWant(deps, want) : noSuchWantView();
    },
  },
  {
    act: 'frag-want-back',
    run: ([id], { guildId, memberId, now }) => {
      const want = guildId === null ? undefined : deps.wants.reopen(Number(id), guildId, memberId);
      return want ? wantedView(want, fitting(deps, want, now), { isNew: true, drive: null }) : noSuchWantView();
    },
  },
];

export const wantForms = (deps: OfferDeps): FormAct[] => [
  {
    act: 'frag-want-far-sent',
    run: ([id], { drive = '' }, request) => {
      const want = ownWant(deps, id, request);
      if (!want) return noSuchWantView();
      const driveKm = readDrive(drive);
      if (driveKm !== null) deps.wants.drive(want, driveKm);
      const shown = driveKm === null ? want : { ...want, driveKm };
      return wantedView(shown, fitting(deps, want, request.now), {
        isNew: true,
        drive: driveKm === null ? drive : null,
      });
    },
  },
];
