import { expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import type { Answer, FetchView, GivenFile, MessageView, Request } from '../../../src/discord/message-view.ts';
import { NOTHING_DESCRIBED } from '../../../src/identification/session.ts';
import { sightingStore } from '../../../src/identification/sighting.store.ts';
import { knowledge } from '../../set-up-club.ts';
import { NOON } from './cases.ts';
import { plainPng } from './pictures.ts';

const request: Request = {
  memberId: '1',
  memberName: 'Ana',
  guildId: '10',
  channelId: '20',
  locale: 'en-GB',
  now: NOON,
  place: { kind: 'channel', lacks: [] },
};
const file: GivenFile = { name: 'a.png', url: 'https://example.org/a.png', size: 9, type: 'image/png', alt: null };

function setUp() {
  const { db } = openTemporaryDatabase();
  const { forms } = createAbilities(knowledge(), { db });
  const { id } = sightingStore(db).begin(
    { memberId: '1', guildId: '10', text: 'a worm', described: NOTHING_DESCRIBED },
    NOON,
  );
  const send = (files: Record<string, GivenFile>, from = request): Answer =>
    forms.get('ask-club-sent')!.run([String(id)], { text: 'a worm' }, from, files);
  const opened = () => db.prepare('SELECT count(*) AS cases FROM cases').get();
  return { send, opened };
}
const words = (view: Answer) => JSON.stringify(view);
const fetching = (answer: Answer): FetchView => {
  if ('kind' in answer && answer.kind === 'fetch') return answer;
  throw new Error(`expected an answer that gets a file first, not ${words(answer)}`);
};
const arrived = (answer: FetchView): MessageView => answer.use({ kind: 'fetched', bytes: plainPng() });

test('a form that is sent again while its photo is on the way opens one case', () => {
  const { send, opened } = setUp();
  const [first, second] = [fetching(send({ photo: file })), fetching(send({ photo: file }))];
  expect(words(arrived(first))).toContain('Your question goes up now');
  expect(words(arrived(second))).toContain('You have asked the club about this already');
  expect(opened()).toEqual({ cases: 1 });
});

test('a form sent by somebody else, or from another server, opens none', () => {
  const { send, opened } = setUp();
  expect(words(send({}, { ...request, memberId: '2' }))).toContain('not yours');
  expect(words(send({}, { ...request, guildId: '11' }))).not.toContain('goes up');
  expect(opened()).toEqual({ cases: 0 });
});

test('a photo that cannot be used opens none, and the words can be sent again', () => {
  const { send, opened } = setUp();
  const answer = fetching(send({ photo: file })).use({ kind: 'fetched', bytes: Buffer.from('GIF89a and so on') });
  expect(words(answer)).toContain('JPEG, PNG and WebP');
  expect(opened()).toEqual({ cases: 0 });
  expect(words(send({}))).toContain('Your question goes up now');
});
