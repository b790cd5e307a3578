import { z } from 'zod';
import type { ClubStore } from '../club/club.store.ts';
import { defineCommand, type AnyCommand, type MenuEntry } from '../discord/command.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Answer, FetchView, GivenFile, MessageView, Request } from '../discord/message-view.ts';
import {
  askedBeforeView,
  askedView,
  missingView,
  noPictureView,
  notInServerView,
  tooLargeView,
  unusablePhotoView,
} from './ask.view.ts';
import type { CarriedSighting } from './carried-sighting.ts';
import { caseExport } from './case-export.ts';
import type { Cases } from './cases.worker.ts';
import { isCurator } from './curator.ts';
import { exportView, notForYouView, nothingToExportView } from './export.view.ts';
import { cleanPhoto, MOST_PHOTO_BYTES } from './photo.ts';

const HOUR_MS = 3_600_000;
export const MOST_TEXT = 600;
const MOST_ALT = 1_000;
const MOST_EXPORTED = 1_000;
/** Without these there is no question at all; without those of a thread it is asked in the channel itself. */
const NEEDED = ['View Channel', 'Read Message History'];
export const FOR_A_PHOTO = 'Attach Files';
const FOR_A_THREAD = ['Create Public Threads', 'Send Messages in Threads'];

const Photo = z.object({
  name: z.string(),
  url: z.string(),
  size: z.number(),
  type: z.string().nullable(),
  alt: z.string().nullable(),
});

/** What asking the club needs: the cases, and how long the club keeps them open. */
export type AskingDeps = { cases: Cases; clubs: ClubStore; base: KnowledgeBase };

/** `/critter ask` and `/critter export`. */
export function opinionCommands(deps: AskingDeps): AnyCommand[] {
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
      run: ({ photo, text = '' }, request) =>
        ask(deps, request, { photo, text, credit: null, others: 0, sighting: null }),
    }),
    defineCommand({
      name: 'critter export',
      description: 'For curators: the settled cases as a file, to test the identification with',
      options: [],
      input: z.object({}),
      run: (_input, request) => {
        if (request.guildId === null) return notInServerView();
        if (!isCurator(request)) return notForYouView();
        const settled = deps.cases.settledCases(request.guildId, MOST_EXPORTED);
        return settled.length > 0 ? exportView(settled.length, caseExport(settled)) : nothingToExportView();
      },
    }),
  ];
}

/** The entry in the menu of every message. */
export const opinionMenu = (deps: AskingDeps): MenuEntry[] => [
  {
    name: 'Ask about this photo',
    run: ({ authorName, text, files }, request) => {
      const [photo, ...others] = files.filter(({ type }) => type?.startsWith('image/'));
      if (!photo) return noPictureView();
      const credit = authorName === request.memberName ? null : authorName;
      return ask(deps, request, {
        photo,
        text: text.slice(0, MOST_TEXT),
        credit,
        others: others.length,
        sighting: null,
      });
    },
  },
];

/** What goes to the club. `sighting`: what was answered before, by the words as they now are. */
export type Asked = {
  photo: GivenFile | null;
  text: string;
  credit: string | null;
  others: number;
  sighting: CarriedSighting | null;
};
type Place = { guildId: string; channelId: string; place: NonNullable<Request['place']> };

/** Opens a case where it was asked, with the photo once it is there; or says why not. */
export function ask(deps: AskingDeps, request: Request, asked: Asked): Answer {
  const { guildId, channelId, place } = request;
  if (guildId === null || channelId === null || !place) return notInServerView();
  const write = place.kind === 'thread' ? 'Send Messages in Threads' : 'Send Messages';
  const { photo } = asked;
  const lacks = [...NEEDED, write, ...(photo ? [FOR_A_PHOTO] : [])].filter((name) => place.lacks.includes(name));
  if (lacks.length > 0) return missingView(lacks);
  const at = { guildId, channelId, place };
  if (!photo) return open(deps, request, asked, at, null);
  if (photo.size > MOST_PHOTO_BYTES) return tooLargeView();
  return {
    kind: 'fetch',
    url: photo.url,
    mostBytes: MOST_PHOTO_BYTES,
    use: (file) => {
      if (file.kind === 'too-large') return tooLargeView();
      if (file.kind === 'not-to-be-had') return unusablePhotoView('not-to-be-had');
      const clean = cleanPhoto(file.bytes);
      return clean.kind === 'clean' ? open(deps, request, asked, at, clean) : unusablePhotoView(clean.kind);
    },
  } satisfies FetchView;
}

function open(
  { cases, clubs, base }: AskingDeps,
  { memberId, memberName, now }: Request,
  { text, photo, credit, others, sighting }: Asked,
  { guildId, channelId, place }: Place,
  clean: { name: string; bytes: Buffer } | null,
): MessageView {
  // Looked up at the last moment: the form may have been sent twice while a photo was on its way.
  const before = sighting ? cases.ofSighting(sighting.id, guildId) : undefined;
  if (before) return askedBeforeView(base, before);
  const lacks = place.kind === 'channel' ? FOR_A_THREAD.filter((name) => place.lacks.includes(name)) : [];
  const openForMs = clubs.of(guildId).settings.opinionHours * HOUR_MS;
  const { opinion } = cases.open(
    {
      guildId,
      channelId,
      askerId: memberId,
      askerName: memberName,
      text: text.trim(),
      photoName: clean?.name ?? null,
      photoAlt: clean ? altText(photo?.alt ?? text, memberName) : '',
      credit,
      wantsThread: place.kind === 'channel' && lacks.length === 0,
      sighting,
      openedAt: now,
      closesAt: new Date(now.getTime() + openForMs),
      openForMs,
    },
    clean?.bytes ?? null,
  );
  return askedView(opinion, lacks, others);
}

/** What those hear who cannot see the photo: its own description, or the asker's words. */
function altText(said: string, memberName: string): string {
  const words = said.replace(/\s+/g, ' ').trim().slice(0, MOST_ALT);
  return words === ''
    ? `A photo from ${memberName} of an animal they do not know. They gave no description.`
    : `Photo from ${memberName}: ${words}`;
}
