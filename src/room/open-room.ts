import { createServer } from 'node:http';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createActivity } from './activity.ts';
import { createActor } from './actor.ts';
import { createContract } from './contract.ts';
import { createFaults } from './faults.ts';
import type { Faults } from './faults.ts';
import { createGateway } from './gateway.ts';
import type { Gateway } from './gateway.ts';
import { createInteractions } from './interactions.ts';
import type { Interactions } from './interactions.ts';
import { isOwnRequest, requireLoopback } from './loopback.ts';
import { createRecorder } from './recorder.ts';
import type { Recorder } from './recorder.ts';
import { createRest } from './rest.ts';
import { createRoomClock } from './room-clock.ts';
import type { Actor, ContractBreach, MemberSpec, RoomClock, RoomOptions } from './room.ts';
import { createWorld } from './world.ts';
import type { World } from './world.ts';
import { createWriter } from './write-message.ts';

/** An open practice room. */
export type Room = {
  /** What goes into the client: `new Client({ rest: { api: room.apiUrl } })`. */
  apiUrl: string;
  origin: string;
  port: number;
  clock: RoomClock;
  world: World;
  gateway: Gateway;
  interactions: Interactions;
  faults: Faults;
  /** Every request so far that the room refused as malformed or had no route for. */
  contract: { breaches(): ContractBreach[] };
  requests: Recorder;
  /** Waits until the bot has been quiet for a moment, such as after a move of the clock. */
  quiet(quietMs?: number): Promise<void>;
  /** Tells the room that the bot is at work; call what it gives back when the work is over. */
  busy(): () => void;
  /** The member who acts; an unknown one is declared as an ordinary member. */
  actor(name: string, spec?: MemberSpec): Actor;
  close(): Promise<void>;
};

const FIRST_RESPONSE_MS = 3_000;
const SETTLE_MS = 60;

/** Opens a practice room on loopback. A discord.js client with `rest: { api: room.apiUrl }` logs in to it. */
export async function openRoom(options: RoomOptions = {}): Promise<Room> {
  const host = requireLoopback(options.host ?? '127.0.0.1');
  const acceptsToken = options.acceptsToken ?? ((token: string) => token !== '' && token !== 'refused');
  const clock = options.clock ?? createRoomClock();
  const world = createWorld(clock);
  const faults = createFaults();
  const recorder = createRecorder();
  const activity = createActivity();
  const breaches: ContractBreach[] = [];
  const firstResponseMs = options.firstResponseMs ?? FIRST_RESPONSE_MS;

  let port = options.port ?? 0;
  const origin = () => `http://${host.includes(':') ? `[${host}]` : host}:${port}`;
  const admits = (request: IncomingMessage) => isOwnRequest(request, port);
  const gateway = createGateway({ world, origin, acceptsToken, admits });
  const interactions = createInteractions({ world, firstResponseMs, dispatch: gateway.dispatch });
  const writer = createWriter(world, origin);
  const contract = createContract(options.contract ?? 'strict');
  const rest = createRest({
    world,
    writer,
    interactions,
    contract,
    gatewayUrl: gateway.url,
    faults,
    recorder,
    breaches,
    activity,
    acceptsToken,
  });
  const stopNoting = world.onChange(() => activity.begin()());

  const server = createServer((request, response) => void answer(request, response));
  server.keepAliveTimeout = 60_000;
  gateway.attachTo(server);
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, resolve);
  });
  const address = server.address();
  if (address !== null && typeof address === 'object') port = address.port;

  const actors = new Map<string, Actor>();
  const actorDeps = {
    world,
    interactions,
    writer,
    activity,
    firstResponseMs,
    settleMs: options.settleMs ?? SETTLE_MS,
    origin,
  };
  const room: Room = {
    apiUrl: `${origin()}/api`,
    origin: origin(),
    port,
    clock,
    world,
    gateway,
    interactions,
    faults,
    contract: { breaches: () => [...breaches] },
    requests: recorder,
    busy: () => activity.begin(),
    quiet: (quietMs = options.settleMs ?? SETTLE_MS) => activity.quiet(quietMs),
    actor(name, spec) {
      const plain = name.replace(/^@/, '');
      const known = world.members.named(plain);
      const member = known && !spec ? known : world.members.declare({ ...spec, name: plain });
      const actor = actors.get(member.id) ?? createActor(actorDeps, member);
      actors.set(member.id, actor);
      return actor;
    },
    async close() {
      stopNoting();
      gateway.close();
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    },
  };

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (!admits(request)) return plain(response, 403, 'This room answers its own machine only.');
    const path = request.url?.split('?')[0] ?? '/';
    if (path === '/api' || path.startsWith('/api/')) return rest.serve(request, response);
    try {
      if (path.startsWith('/attachments/')) return serveFile(path, response);
      if (await options.extend?.(room, request, response)) return;
      plain(response, 404, 'There is nothing here.');
    } catch (error) {
      plain(response, 500, error instanceof Error ? error.message : String(error));
    }
  }

  function serveFile(path: string, response: ServerResponse): void {
    const file = world.messages.file(decodeURIComponent(path));
    if (!file) return plain(response, 404, 'There is no such file.');
    response.writeHead(200, {
      'content-type': file.type,
      'content-length': file.data.length,
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    });
    response.end(file.data);
  }

  return room;
}

function plain(response: ServerResponse, status: number, text: string): void {
  if (response.headersSent) return void response.end();
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8' });
  response.end(text);
}
