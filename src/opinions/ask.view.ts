import { noteView } from '../critters/names.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { closedText, openTime } from './case-words.ts';
import type { Case } from './opinion.ts';
import type { CleanPhoto } from './photo.ts';

export const notInServerView = (): MessageView =>
  noteView('Second opinions need a club', md`Use this in a server channel: here there is nobody else to ask.`);

export const missingView = (lacks: readonly string[]): MessageView =>
  noteView(
    'I may not post a photo here',
    md`I lack **${lacks.join(', ')}** in this channel. An officer can grant it in the channel’s settings under Permissions. Nothing was posted.`,
  );

export const noPictureView = (): MessageView =>
  noteView(
    'There is no picture on that message',
    md`Use the menu on a message that has a photo attached, or attach one to **/critter ask**.`,
  );

export const tooLargeView = (): MessageView =>
  noteView(
    'That photo is too large',
    md`I take photos up to 10 MB. Make it smaller, or send a screenshot of it. Nothing was posted.`,
  );

/** A picture that cannot be used: what came, what is taken. */
export function unusablePhotoView(kind: Exclude<CleanPhoto['kind'], 'clean'> | 'not-to-be-had'): MessageView {
  switch (kind) {
    case 'other-kind':
      return noteView(
        'I cannot use that kind of file',
        md`I take JPEG, PNG and WebP, because from those I can take out where they were made. A screenshot of your photo will do. Nothing was posted.`,
      );
    case 'damaged':
      return noteView(
        'That photo is damaged',
        md`Its file ends early or is not built as it should be. Send it again, or a screenshot of it. Nothing was posted.`,
      );
    case 'not-to-be-had':
      return noteView(
        'I could not get that photo',
        md`Discord did not hand it over. Try again in a minute. Nothing was posted.`,
      );
  }
}

/** The asker's receipt: what happens now, and what does not work here. */
export function askedView(opinion: Case, lacks: readonly string[], others: number): MessageView {
  const { wantsThread, photoName, id, openForMs, sighting } = opinion;
  const hurt = sighting?.described.hurt.length
    ? md`**Is somebody hurt or ill? Do not wait for votes:** press a button about it on my answer, or call your emergency number. `
    : md``;
  const what = photoName ? md`The photo is posted here without its metadata` : md`It is posted in this channel`;
  const place = wantsThread ? md`in a thread under it` : md`right below it`;
  const photo = photoName
    ? md``
    : md` People see more than words say: when you have a photo, add it ${wantsThread ? 'to that thread' : 'here'}.`;
  const missing = lacks.length > 0 ? md` I lack **${lacks.join(', ')}** here, so there is no thread.` : md``;
  const more = others > 0 ? md` I took the first of ${others + 1} pictures.` : md``;
  return noteView(
    'Your question goes up now',
    md`${hurt}${what}, and the club votes ${place}.${photo}${missing}${more} After ${openTime(openForMs)}, or when a curator settles it, I tell you there once. Case ${id}.`,
  );
}

/** Neither a word, an answer nor a photo: there is nothing that anybody could judge by. */
export const nothingToAskView = (): MessageView =>
  noteView(
    'There is nothing to show the club yet',
    md`Give a photo, or a few words about what you see, or answer a question or two first. Then press **Ask the club** again. Nothing was posted.`,
  );

/** The club is asked once about a sighting; the way to where it was asked. */
export function askedBeforeView(base: KnowledgeBase, opinion: Case): MessageView {
  const { id, threadId, channelId, messageId, closed } = opinion;
  const place = placeOf(threadId ?? channelId);
  return noteView(
    'You have asked the club about this already',
    messageId === null
      ? md`It is case ${id}, and it is on its way to ${place}. Nothing new was posted.`
      : closed
        ? md`It is case ${id}, in ${place}. ${closedText(base, closed)}`
        : md`It is case ${id}, in ${place}, and voting is open. Have you seen more since? Tell it there. Nothing new was posted.`,
  );
}

/** Only an id of Discord's own making goes in. */
const placeOf = (channelId: string): Markdown => ({ markdown: `<#${channelId.replace(/\D/g, '')}>` });
