import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Room } from './open-room.ts';
import { PageActBody, playMemberAct } from './page-acts.ts';
import { streamChanges } from './page-events.ts';
import { servePageFile } from './page-files.ts';
import type { PageAct, PageAnswer } from './page-shapes.ts';
import { pageState } from './page-state.ts';
import type { RoomOptions } from './room.ts';
import type { WorldMember } from './world-shapes.ts';

/** Ten files of 10 MB, as base64 in JSON. */
const MOST_BYTES = 140_000_000;

export type PageOptions = {
  /** Folder with the built page. */
  folder: string;
  /** Fills the empty room again after "Start over". */
  seed?: (room: Room) => void | Promise<void>;
  /** What else must be emptied for a fresh start, such as the bot's own records. Runs before `seed`. */
  onStartOver?: (room: Room) => void | Promise<void>;
};

/**
 * The page of the practice room: give `extend` to `openRoom`. Every start has its own key, which only the page served
 * here knows, so that nothing else that runs in the browser can act in the room.
 */
export function openPage(options: PageOptions): { key: string; extend: NonNullable<RoomOptions['extend']> } {
  const key = randomBytes(18).toString('base64url');
  const gone = new Set<string>();

  async function act(room: Room, body: PageAct): Promise<PageAnswer> {
    if (body.act === 'start-over') {
      await startOver(room);
      return {};
    }
    if (body.act === 'advance') {
      room.clock.advance(body.ms);
      await room.quiet();
      return {};
    }
    const member = room.world.members.named(body.as);
    if (!member || member.bot) return { error: `There is no member called ${body.as}.` };
    return playMemberAct(room, member, body);
  }

  async function startOver(room: Room): Promise<void> {
    const { world, interactions } = room;
    for (const message of world.messages.all()) world.messages.remove(message);
    for (const member of world.members.all()) interactions.closeModal(member.id);
    for (const { id, type } of world.channels.all()) if (type !== 0) gone.add(id);
    await options.onStartOver?.(room);
    await options.seed?.(room);
  }

  async function answer(room: Room, url: URL, request: IncomingMessage, response: ServerResponse): Promise<void> {
    const route = `${request.method} ${url.pathname}`;
    if (route === 'GET /room/events') return streamChanges(room, response);
    if (route === 'GET /room/state') {
      const member = actingMember(room, url.searchParams.get('as') ?? '');
      if (!member) return json(response, 409, { error: 'Nobody is here who could be played.' });
      revive(room, gone);
      return json(response, 200, pageState(room, member, gone));
    }
    if (route === 'POST /room/act') {
      const body = PageActBody.safeParse(await readJson(request));
      if (!body.success)
        return json(response, 400, {
          error: `The page asked for something odd: ${body.error.issues[0]?.message ?? ''}`,
        });
      return json(response, 200, await act(room, body.data));
    }
    json(response, 404, { error: 'There is nothing here.' });
  }

  return {
    key,
    async extend(room, request, response) {
      const url = new URL(request.url ?? '/', room.origin);
      if (request.method === 'GET' && (await servePageFile(options.folder, url.pathname, key, response))) return true;
      if (!url.pathname.startsWith('/room/')) return false;
      const given = request.headers['x-room-key'] ?? url.searchParams.get('key');
      if (!sameKey(String(given ?? ''), key))
        json(response, 403, { error: 'This page is from an earlier start. Load it again.' });
      else await answer(room, url, request, response);
      return true;
    },
  };
}

/** Whoever is asked for, or the first member there is. */
const actingMember = (room: Room, name: string): WorldMember | undefined => {
  const member = room.world.members.named(name);
  return member && !member.bot ? member : room.world.members.all().find(({ bot }) => !bot);
};

/** A place that was put away comes back when somebody speaks in it again. */
function revive(room: Room, gone: Set<string>): void {
  if (gone.size === 0) return;
  for (const { channelId } of room.world.messages.all()) gone.delete(channelId);
}

function sameKey(given: string, key: string): boolean {
  const [a, b] = [Buffer.from(given), Buffer.from(key)];
  return a.length === b.length && timingSafeEqual(a, b);
}

async function readJson(request: IncomingMessage): Promise<unknown> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) return null;
    chunks.push(chunk);
  }
  try {
    return JSON.parse(Buffer.concat(chunks).toString('utf8'));
  } catch {
    return null;
  }
}

function json(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { 'content-type': 'application/json; charset=utf-8', 'cache-control': 'no-store' });
  response.end(JSON.stringify(body));
}
