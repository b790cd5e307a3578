import { joined, md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { FormView } from '../discord/message-view.ts';
import { noted } from './draft.view.ts';
import { withButtons } from './keeper.view.ts';
import { MOST_WANTS, type Offer, type Want } from './offer.ts';
import { offerLine } from './told.view.ts';

const MOST_SHOWN = 5;

/** What is looked for from now on, and what of it is there already. `drive`: a distance that could not be read. */
export function wantedView(
  want: Want,
  fitting: readonly Offer[],
  { isNew, drive }: { isNew: boolean; drive: string | null },
): MessageView {
  const far = want.driveKm === null ? md`` : md`, up to ${want.driveKm} km away`;
  const shown = fitting.slice(0, MOST_SHOWN);
  const id = String(want.id);
  return withButtons(
    noted(
      isNew ? 'Noted' : 'You look for that already',
      md`You look for **${want.words}**${far}.`,
      ...(drive === null ? [] : [driveTrouble(drive)]),
      shown.length > 0
        ? joined([md`**There now:**`, ...shown.map(offerLine), ...(fitting.length > shown.length ? [md`And ${fitting.length - shown.length} more: **/frag find**.`] : [])]) // prettier-ignore
        : md`Nobody offers one now.`,
      md`When one comes I write to you directly: once a day at most, and not at night where I know your time zone.`,
    ),
    [
      ...(drive === null ? [] : [{ label: 'Try again', act: 'frag-want-far', args: [id], style: 'primary' as const }]),
      ...shown.map(({ id: offer, left }) => ({
        label: `${left > 0 ? 'I’d like one' : 'Put me in line'}: offer ${offer}`,
        act: 'frag-promise',
        args: [String(offer)],
      })),
      { label: 'Stop looking', act: 'frag-want-end', args: [id] },
    ],
  );
}

const driveTrouble = (typed: string): Markdown =>
  md`I read “${typed}” as no distance. Write whole kilometres, such as 30 km, or 20 miles. What you look for is kept.`;

export const farForm = ({ id, driveKm }: Want, typed?: string): FormView => ({
  kind: 'form',
  act: 'frag-want-far-sent',
  args: [String(id)],
  title: 'How far would you drive?',
  fields: [
    {
      kind: 'line',
      name: 'drive',
      label: 'One way, in km or miles',
      required: true,
      mostCharacters: 20,
      placeholder: '30 km, or 20 miles',
      value: typed ?? (driveKm === null ? '' : `${driveKm} km`),
    },
  ],
});

export const endedWantView = ({ id, words }: Want): MessageView =>
  withButtons(noted('You look for it no more', md`**${words}** is off your list.`), [
    { label: 'Undo', act: 'frag-want-back', args: [String(id)] },
  ]);
export const tooManyWantsView = (): MessageView =>
  noted(
    'That is a long list',
    md`You can look for ${MOST_WANTS} things at once. **/frag mine** ends one. Nothing was added.`,
  );
export const whatView = (): MessageView =>
  noted('What do you look for?', md`Choose a coral or a group from the list, or say it in your words.`);
export const noSuchWantView = (): MessageView =>
  noted('You don’t look for that', md`**/frag mine** shows what you look for.`);
