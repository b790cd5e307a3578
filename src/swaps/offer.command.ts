import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import type { Choice, Request } from '../discord/message-view.ts';
import { FLOWS } from '../knowledge/coral-words.ts';
import { localDate } from '../schedule/local-time.ts';
import { MOST, Typed } from './draft.ts';
import { draftForm } from './draft-form.view.ts';
import { draftTroubleView, needsAClubView } from './draft.view.ts';
import { areaChoices, colourChoices, coralChoices, cutChoices, sizeChoices } from './offer-choices.ts';
import { hindrance, readTyped, type OfferDeps } from './offering.command.ts';
import { LIGHTS, MOST_PIECES } from './offer.ts';

const Photo = z.object({ url: z.string(), alt: z.string().nullable() });

const Input = z
  .object({
    coral: z.string(),
    pieces: z.int().optional(),
    photo: Photo.optional(),
    cut: z.string().optional(),
    give: z.literal('yes').optional(),
    size: z.string().optional(),
    colour: z.string().optional(),
    light: z.enum(LIGHTS).optional(),
    flow: z.enum(FLOWS).optional(),
    area: z.string().optional(),
    'heals-in': z.int().optional(),
  })
  .transform(({ photo, give, pieces, 'heals-in': healsIn, ...words }) =>
    Typed.parse({
      ...words,
      give: give === 'yes',
      ...(pieces === undefined ? {} : { pieces: String(pieces) }),
      ...(healsIn === undefined ? {} : { healsIn: String(healsIn) }),
      photoUrl: photo?.url ?? '',
      photoAlt: photo?.alt ?? '',
    }),
  );

const OPTIONS: readonly OptionSpec[] = [
  {
    name: 'coral',
    description: 'Which coral: choose it, or say it in your words',
    required: true,
    autocomplete: true,
    mostCharacters: MOST.name,
  },
  { kind: 'picture', name: 'photo', description: 'A photo of the piece; where it was made is taken out', required: false },
  { kind: 'whole-number', name: 'pieces', description: 'How many; left out: one', required: false, least: 1, most: MOST_PIECES },
  { name: 'cut', description: 'When it was cut: "last week", "1 Nov"', required: false, autocomplete: true, mostCharacters: 40 },
  { name: 'give', description: 'Yes: you give it away and want nothing for it', required: false, choices: ['yes'] },
  { name: 'size', description: 'How big a piece is', required: false, autocomplete: true, mostCharacters: MOST.size },
  { name: 'colour', description: 'Its colour', required: false, autocomplete: true, mostCharacters: MOST.colour },
  { name: 'light', description: 'How much light it has with you', required: false, choices: LIGHTS },
  { name: 'flow', description: 'How much flow it has with you', required: false, choices: FLOWS },
  { name: 'area', description: 'Where it can be picked up, roughly', required: false, autocomplete: true, mostCharacters: MOST.area },
  { kind: 'whole-number', name: 'heals-in', description: 'Days after the cut until it is settled; left out: 14', required: false, least: 0, most: 120 },
]; // prettier-ignore

/** `/frag offer`: what can be chosen is an option, the rest is asked in one form, and nothing is posted unseen. */
export function offerCommand(deps: OfferDeps): AnyCommand {
  return defineCommand({
    name: 'frag offer',
    description: 'Offer pieces of a coral to the club, to swap or to give away',
    options: OPTIONS,
    input: Input,
    run: (typed, request) => {
      const { guildId, channelId, memberId, now } = request;
      const hindered = hindrance(deps, request, typed.photoUrl !== '');
      if (hindered) return hindered;
      if (guildId === null || channelId === null) return needsAClubView();
      const area = typed.area || lastArea(deps, guildId, memberId);
      const draft = deps.drafts.add({ guildId, memberId, channelId, offerId: null, typed: { ...typed, area } }, now);
      const read = readTyped(deps, draft, request);
      return read.kind === 'trouble' ? draftTroubleView(draft, read.troubles) : draftForm(draft);
    },
    suggest: (option, typed, request) => suggested(deps, option, typed, request),
  });
}

/** Where a member's pieces were picked up before: seldom somewhere else. */
const lastArea = ({ offers }: OfferDeps, guildId: string, memberId: string): string =>
  offers.own(guildId, memberId).at(-1)?.details.area ?? '';

function suggested(deps: OfferDeps, option: string, typed: string, { guildId, memberId, now }: Request): Choice[] {
  switch (option) {
    case 'coral':
      return coralChoices(deps.base, deps.corals, typed);
    case 'cut':
      return cutChoices(typed, localDate(now, deps.zoneOf(memberId) ?? 'UTC'));
    case 'size':
      return sizeChoices(typed);
    case 'colour':
      return colourChoices(typed);
    case 'area': {
      const all =
        guildId === null ? [] : [...deps.offers.own(guildId, memberId).toReversed(), ...deps.offers.open(guildId, now)];
      return areaChoices(
        all.flatMap(({ details }) => details.area ?? []),
        typed,
      );
    }
    default:
      return [];
  }
}
