import { outOfDateView } from '../critters/names.view.ts';
import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import type { Identifier } from '../identification/identify.ts';
import type { Sighting } from '../identification/session.ts';
import type { SightingStore } from '../identification/sighting.store.ts';
import { notYoursView } from '../identification/sighting.view.ts';
import { askClubForm, PHOTO_FIELD, TEXT_FIELD } from './ask-club.view.ts';
import { ask, FOR_A_PHOTO, MOST_TEXT, type AskingDeps } from './ask.command.ts';
import { askedBeforeView, notInServerView, nothingToAskView } from './ask.view.ts';
import { carriedFrom } from './carried-sighting.ts';

export type AskClubDeps = AskingDeps & { identifier: Identifier; sightings: SightingStore };

/** The button under what the bot makes of a sighting: opens the form, or says where the club was asked already. */
export const askClubButtons = (deps: AskClubDeps): ButtonAct[] => [
  {
    act: 'ask-club',
    run: ([id], request) =>
      onOwnSighting(deps, id, request, (sighting, guildId) => {
        const before = deps.cases.ofSighting(sighting.id, guildId);
        if (before) return askedBeforeView(deps.base, before);
        return askClubForm(sighting, !request.place?.lacks.includes(FOR_A_PHOTO), MOST_TEXT);
      }),
  },
];

/** What comes back from that form becomes a case, with the words as they now are and the answers so far. */
export const askClubForms = (deps: AskClubDeps): FormAct[] => [
  {
    act: 'ask-club-sent',
    run: ([id], filled, request, files) =>
      onOwnSighting(deps, id, request, (sighting) => {
        const text = filled[TEXT_FIELD] ?? '';
        const photo = files[PHOTO_FIELD] ?? null;
        const hasAnswers = sighting.answers.some(({ option }) => option !== 'skip');
        if (!photo && !hasAnswers && text.trim() === '') return nothingToAskView();
        const carried = carriedFrom(sighting, text, (words) => deps.identifier.read(words));
        return ask(deps, request, { photo, text, credit: null, others: 0, sighting: carried });
      }),
  },
];

/** Only the owner asks the club about a sighting, and only in the server where it was described. */
function onOwnSighting(
  { sightings }: AskClubDeps,
  id: string | undefined,
  { guildId, memberId }: Request,
  run: (sighting: Sighting, guildId: string) => Answer,
): Answer {
  if (guildId === null) return notInServerView();
  const sighting = sightings.find(Number(id), guildId);
  if (!sighting) return outOfDateView();
  return sighting.memberId === memberId ? run(sighting, guildId) : notYoursView();
}
