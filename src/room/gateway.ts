import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { GatewayIntentBits } from 'discord-api-types/v10';
import { WebSocket, WebSocketServer } from 'ws';
import { z } from 'zod';
import { createSession } from './gateway-session.ts';
import type { Session } from './gateway-session.ts';
import { gatewayEvents } from './gateway-events.ts';
import { guildPayload, userPayload } from './payloads.ts';
import type { GatewayFault } from './room.ts';
import type { World } from './world.ts';

const HEARTBEAT_MS = 41_250;
const PRIVILEGED = GatewayIntentBits.GuildMembers | GatewayIntentBits.GuildPresences | GatewayIntentBits.MessageContent;
const KNOWN_INTENTS = Object.values(GatewayIntentBits)
  .filter((bit) => typeof bit === 'number')
  .reduce((all, bit) => all | bit, 0);

const Frame = z.object({ op: z.number(), d: z.unknown().optional() });
const Identify = z.object({
  token: z.string(),
  intents: z.number(),
  shard: z.tuple([z.number(), z.number()]).optional(),
});
const Resume = z.object({ token: z.string(), session_id: z.string(), seq: z.number() });

export type Gateway = ReturnType<typeof createGateway>;

/** The gateway: what the bot hears, over WebSocket. */
export function createGateway(deps: {
  world: World;
  origin: () => string;
  acceptsToken: (token: string) => boolean;
  admits: (request: IncomingMessage) => boolean;
}) {
  const { world } = deps;
  const sockets = new WebSocketServer({ noServer: true });
  const sessions = new Map<string, Session>();
  const counts = { identifies: 0, resumes: 0 };
  let waiting: (() => void)[] = [];
  const url = () => `${deps.origin().replace('http', 'ws')}/gateway`;

  const stopListening = world.onChange((change) => {
    for (const session of sessions.values()) {
      for (const event of gatewayEvents(world, change, session.intents)) session.dispatch(event.type, event.data);
    }
  });
  const connected = () => [...sessions.values()].some((one) => one.socket()?.readyState === WebSocket.OPEN);

  const opened = () => {
    world.emit({ kind: 'gateway', connected: true });
    for (const resolve of waiting) resolve();
    waiting = [];
  };

  function identify(socket: WebSocket, data: unknown): void {
    const asked = Identify.safeParse(data);
    if (!asked.success || !deps.acceptsToken(plainToken(asked.data.token)))
      return socket.close(4004, 'Authentication failed.');
    const { token, intents, shard } = asked.data;
    if (shard && (shard[0] >= shard[1] || shard[1] > 1))
      return socket.close(4011, 'Sharding required to be one shard here.');
    if (intents & ~KNOWN_INTENTS) return socket.close(4013, 'Invalid intent(s).');
    if (intents & PRIVILEGED) return socket.close(4014, 'Disallowed intent(s).');
    counts.identifies += 1;
    // A session without a socket is what a bot that has gone left behind.
    for (const [id, old] of sessions) if (old.socket()?.readyState !== WebSocket.OPEN) sessions.delete(id);
    const session = createSession(plainToken(token), intents);
    sessions.set(session.id, session);
    session.attach(socket);
    session.dispatch('READY', {
      v: 10,
      user: { ...userPayload(world.members.bot), verified: true, mfa_enabled: true, email: null, flags: 0 },
      guilds: [{ id: world.guild.id, unavailable: true }],
      session_id: session.id,
      resume_gateway_url: url(),
      shard: shard ?? [0, 1],
      application: { id: world.applicationId, flags: 0 },
    });
    if (intents & GatewayIntentBits.Guilds) session.dispatch('GUILD_CREATE', guildPayload(world));
    opened();
  }

  function resume(socket: WebSocket, data: unknown): void {
    const asked = Resume.safeParse(data);
    const session = asked.success ? sessions.get(asked.data.session_id) : undefined;
    if (
      !asked.success ||
      !session ||
      session.token !== plainToken(asked.data.token) ||
      !session.canReplay(asked.data.seq)
    ) {
      if (session) sessions.delete(session.id);
      return socket.send(JSON.stringify({ op: 9, d: false }));
    }
    counts.resumes += 1;
    session.attach(socket);
    session.replay(asked.data.seq);
    session.dispatch('RESUMED', {});
    opened();
  }

  function receive(socket: WebSocket, raw: string): void {
    const frame = Frame.safeParse(readJson(raw));
    if (!frame.success) return socket.close(4002, 'Error while decoding payload.');
    const session = [...sessions.values()].find((one) => one.socket() === socket);
    switch (frame.data.op) {
      case 1:
        return socket.send(JSON.stringify({ op: 11 }));
      case 2:
        return session ? socket.close(4005, 'Already authenticated.') : identify(socket, frame.data.d);
      case 6:
        return resume(socket, frame.data.d);
      case 3:
      case 4:
      case 8:
        return session ? undefined : socket.close(4003, 'Not authenticated.');
      default:
        return socket.close(4001, 'Unknown opcode.');
    }
  }

  sockets.on('connection', (socket) => {
    socket.on('message', (data: Buffer) => receive(socket, data.toString('utf8')));
    socket.on('error', () => socket.terminate());
    socket.on('close', (code) => {
      const session = [...sessions.values()].find((one) => one.socket() === socket);
      if (!session) return;
      session.attach(null);
      // A client that closes with 1000 or 1001 gives its session up.
      if (code === 1000 || code === 1001) sessions.delete(session.id);
      world.emit({ kind: 'gateway', connected: connected() });
    });
    socket.send(JSON.stringify({ op: 10, d: { heartbeat_interval: HEARTBEAT_MS } }));
  });

  return {
    url,
    counts,
    connected,
    /** Resolves when a bot has identified or resumed. */
    whenConnected: (): Promise<void> =>
      connected() ? Promise.resolve() : new Promise((resolve) => waiting.push(resolve)),
    /** Sends an event to every session, whatever its intents. */
    dispatch(type: string, data: unknown): void {
      for (const session of sessions.values()) session.dispatch(type, data);
    },
    /** Plays a fault on every live connection. */
    drop(kind: GatewayFault): void {
      for (const session of [...sessions.values()]) {
        const socket = session.socket();
        if (socket) playFault(kind, session, socket, sessions);
      }
    },
    attachTo(server: Server): void {
      server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
        const path = request.url?.split('?')[0] ?? '/';
        if (!deps.admits(request) || !/^\/gateway\/?$/.test(path)) return void socket.destroy();
        sockets.handleUpgrade(request, socket, head, (opening) => sockets.emit('connection', opening, request));
      });
    },
    close(): void {
      stopListening();
      for (const socket of sockets.clients) socket.terminate();
      sockets.close();
      sessions.clear();
    },
  };
}

function playFault(kind: GatewayFault, session: Session, socket: WebSocket, sessions: Map<string, Session>): void {
  switch (kind) {
    case 'drop':
      return socket.terminate();
    case 'close-1000':
      sessions.delete(session.id);
      return socket.close(1000);
    case 'reconnect':
      return socket.send(JSON.stringify({ op: 7, d: null }));
    case 'invalid-session':
      sessions.delete(session.id);
      return socket.send(JSON.stringify({ op: 9, d: false }));
    case 'invalid-session-resumable':
      return socket.send(JSON.stringify({ op: 9, d: true }));
  }
}

const plainToken = (token: string) => token.replace(/^Bot /, '');

function readJson(raw: string): unknown {
  try {
    return JSON.parse(raw);
  } catch {
    return undefined;
  }
}
