import { z } from 'zod';
import { defineCommand, type AnyCommand, type MenuEntry } from '../discord/command.ts';
import type { Answer, FetchView, GivenFile, MessageView, Request } from '../discord/message-view.ts';
import { askedView, missingView, noPictureView, notInServerView, tooLargeView, unusablePhotoView } from './ask.view.ts';
import { caseExport } from './case-export.ts';
import type { Cases } from './cases.worker.ts';
import { isCurator } from './curator.ts';
import { exportView, notForYouView, nothingToExportView } from './export.view.ts';
import { OPEN_FOR_MS } from './opinion.ts';
import { cleanPhoto, MOST_PHOTO_BYTES } from './photo.ts';

const MOST_TEXT = 600;
const MOST_ALT = 1_000;
const MOST_EXPORTED = 1_000;
/** Without these there is no question at all; without those of a thread it is asked in the channel itself. */
const NEEDED = ['View Channel', 'Attach Files', 'Read Message History'];
const FOR_A_THREAD = ['Create Public Threads', 'Send Messages in Threads'];

const Photo = z.object({
  name: z.string(),
  url: z.string(),
  size: z.number(),
  type: z.string().nullable(),
  alt: z.string().nullable(),
});

/** `/critter ask` and `/critter export`. */
export function opinionCommands(cases: Cases): AnyCommand[] {
  return [
    defineCommand({
      name: 'critter ask',
      description: 'Show the club a photo and get a second opinion: pest or harmless?',
      options: [
        { kind: 'picture', name: 'photo', description: 'JPEG, PNG or WebP, up to 10 MB', required: true },
        {
          name: 'text',
          description: 'What you see: shape, colour, size, where, when, what it does',
          required: false,
          mostCharacters: MOST_TEXT,
        },
      ],
      input: z.object({ photo: Photo, text: z.string().max(MOST_TEXT).optional() }),
      run: ({ photo, text = '' }, request) => ask(cases, request, { photo, text, credit: null, others: 0 }),
    }),
    defineCommand({
      name: 'critter export',
      description: 'For curators: the settled cases as a file, to test the identification with',
      options: [],
      input: z.object({}),
      run: (_input, request) => {
        if (request.guildId === null) return notInServerView();
        if (!isCurator(request)) return notForYouView();
        const settled = cases.settledCases(request.guildId, MOST_EXPORTED);
        return settled.length > 0 ? exportView(settled.length, caseExport(settled)) : nothingToExportView();
      },
    }),
  ];
}

/** The entry in the menu of every message. */
export const opinionMenu = (cases: Cases): MenuEntry[] => [
  {
    name: 'Ask about this photo',
    run: ({ authorName, text, files }, request) => {
      const [photo, ...others] = files.filter(({ type }) => type?.startsWith('image/'));
      if (!photo) return noPictureView();
      const credit = authorName === request.memberName ? null : authorName;
      return ask(cases, request, { photo, text: text.slice(0, MOST_TEXT), credit, others: others.length });
    },
  },
];

type Asked = { photo: GivenFile; text: string; credit: string | null; others: number };

function ask(cases: Cases, request: Request, asked: Asked): Answer {
  const { guildId, channelId, place } = request;
  if (guildId === null || channelId === null || !place) return notInServerView();
  const write = place.kind === 'thread' ? 'Send Messages in Threads' : 'Send Messages';
  const lacks = [...NEEDED, write].filter((name) => place.lacks.includes(name));
  if (lacks.length > 0) return missingView(lacks);
  if (asked.photo.size > MOST_PHOTO_BYTES) return tooLargeView();
  return {
    kind: 'fetch',
    url: asked.photo.url,
    mostBytes: MOST_PHOTO_BYTES,
    use: (file) => {
      if (file.kind === 'too-large') return tooLargeView();
      if (file.kind === 'not-to-be-had') return unusablePhotoView('not-to-be-had');
      return open(cases, request, { ...asked, guildId, channelId, place }, file.bytes);
    },
  } satisfies FetchView;
}

function open(
  cases: Cases,
  { memberId, memberName, now }: Request,
  {
    text,
    photo,
    credit,
    others,
    guildId,
    channelId,
    place,
  }: Asked & { guildId: string; channelId: string; place: NonNullable<Request['place']> },
  bytes: Buffer,
): MessageView {
  const clean = cleanPhoto(bytes);
  if (clean.kind !== 'clean') return unusablePhotoView(clean.kind);
  const lacks = place.kind === 'channel' ? FOR_A_THREAD.filter((name) => place.lacks.includes(name)) : [];
  const wantsThread = place.kind === 'channel' && lacks.length === 0;
  const { opinion } = cases.open(
    {
      guildId,
      channelId,
      askerId: memberId,
      askerName: memberName,
      text: text.trim(),
      photoName: clean.name,
      photoAlt: altText(photo.alt ?? text, memberName),
      credit,
      wantsThread,
      openedAt: now,
      closesAt: new Date(now.getTime() + OPEN_FOR_MS),
    },
    clean.bytes,
  );
  return askedView(opinion.id, wantsThread, lacks, others);
}

/** What those hear who cannot see the photo: its own description, or the asker's words. */
function altText(said: string, memberName: string): string {
  const words = said.replace(/\s+/g, ' ').trim().slice(0, MOST_ALT);
  return words === ''
    ? `A photo from ${memberName} of an animal they do not know. They gave no description.`
    : `Photo from ${memberName}: ${words}`;
}
