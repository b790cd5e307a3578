import { createHash } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Activity } from './activity.ts';
import type { Answer, Exchange, Route, RouteDeps } from './exchange.ts';
import { faultAnswer } from './faults.ts';
import type { Faults } from './faults.ts';
import { readBytes, readPayload } from './multipart.ts';
import { fileNames } from './recorder.ts';
import type { Recorder } from './recorder.ts';
import { Refusal } from './refusal.ts';
import type { ContractBreach, RestFault } from './room.ts';
import { botRoutes } from './routes-bot.ts';
import { channelRoutes } from './routes-channels.ts';
import { commandRoutes } from './routes-commands.ts';
import { interactionRoutes } from './routes-interactions.ts';
import { messageRoutes } from './routes-messages.ts';

type Reply = Answer & { headers?: Record<string, string>; why?: string; kind?: ContractBreach['kind'] };
export type RestDeps = RouteDeps & {
  faults: Faults;
  recorder: Recorder;
  breaches: ContractBreach[];
  activity: Activity;
  acceptsToken: (token: string) => boolean;
};

// Codes that mean that the bot wrote something that Discord would never take.
const FORM_CODES = new Set([50035, 50006, 50109]);

/** The REST side of the API: finds the route, plays faults, checks the token, answers and records. */
export function createRest(deps: RestDeps) {
  const routes = [botRoutes, commandRoutes, interactionRoutes, channelRoutes, messageRoutes].flatMap((make) =>
    make(deps),
  );

  async function handle(route: Route | undefined, exchange: Exchange, token: string | null): Promise<Reply> {
    const unauthorised = { status: 401, body: { message: '401: Unauthorized', code: 0 } };
    if (route?.auth && token === null) return unauthorised;
    if (token !== null && !deps.acceptsToken(token)) return unauthorised;
    if (!route) {
      const why = `the room has no route for ${exchange.method} ${exchange.path}`;
      return { status: 404, body: { message: '404: Not Found', code: 0 }, kind: 'unrouted', why };
    }
    try {
      return await route.handle(exchange);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      const { status, code, message, details } = error;
      const breach = FORM_CODES.has(code) ? { kind: 'refused' as const, why: inWords(message, details['errors']) } : {};
      return { status, body: { message, code, ...details }, ...breach };
    }
  }

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const url = new URL(request.url ?? '/', 'http://room');
    const method = request.method ?? 'GET';
    const path = decodeURIComponent(url.pathname.replace(/^\/api(\/v\d+)?/, ''));
    const { body, files } = await readRequest(request);
    const route = routes.find((one) => one.method === method && one.pattern.test(path));
    const params = route?.pattern.exec(path)?.slice(1) ?? [];
    const exchange: Exchange = { method, path, params, query: url.searchParams, body, files };
    const record = (status: number) =>
      deps.recorder.add({
        method,
        path,
        query: url.search,
        body,
        files: fileNames(files),
        status,
        at: deps.world.clock.now(),
      });

    const fault = deps.faults.take(`${method} ${path}`);
    const played = fault?.when === 'before-commit' ? await play(fault) : null;
    const reply = played ?? (await handle(route, exchange, tokenOf(request)));
    if (reply !== 'hang-up' && reply.kind) {
      deps.breaches.push({
        method,
        path,
        kind: reply.kind,
        why: reply.why ?? '',
        ...(body === undefined ? {} : { body }),
      });
    }
    const final = (fault?.when === 'after-commit' ? await play(fault) : null) ?? reply;
    if (final === 'hang-up') {
      record(0);
      return void request.socket.destroy();
    }
    send(response, { ...final, headers: { date: dateOf(deps.world.clock.now()), ...final.headers } }, route);
    record(final.status);
  }

  return {
    async serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
      const done = deps.activity.begin();
      try {
        await answer(request, response);
      } catch (error) {
        if (error instanceof Refusal) {
          const { status, code, message } = error;
          deps.breaches.push({ method: request.method ?? '', path: request.url ?? '', kind: 'refused', why: message });
          return send(response, { status, body: { message, code } }, undefined);
        }
        // A mistake of the room must not look like one of the bot.
        const why = `the room failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
        deps.breaches.push({ method: request.method ?? '', path: request.url ?? '', kind: 'refused', why });
        send(response, { status: 500, body: { message: why, code: 0 } }, undefined);
      } finally {
        done();
      }
    },
  };
}

/** Discord's answers carry its own time, and here that is the room's. */
const dateOf = (now: Date): string => now.toUTCString();

/** What a fault does in place of the answer; null when it only takes time. */
async function play(fault: RestFault): Promise<Reply | 'hang-up' | null> {
  if (fault.kind === 'hang-up') return 'hang-up';
  if (fault.kind === 'delay') await sleep(fault.ms ?? 1000);
  return faultAnswer(fault);
}

async function readRequest(request: IncomingMessage) {
  const bytes = await readBytes(request);
  return readPayload(bytes, request.headers['content-type'] ?? '');
}

function tokenOf(request: IncomingMessage): string | null {
  const given = request.headers.authorization;
  return given === undefined ? null : given.replace(/^Bot /, '');
}

function send(response: ServerResponse, { status, body, headers = {} }: Reply, route: Route | undefined): void {
  if (response.headersSent || response.destroyed) return;
  const bucket = createHash('md5').update(String(route?.pattern)).digest('hex');
  response.writeHead(status, {
    'x-ratelimit-limit': '1000',
    'x-ratelimit-remaining': '999',
    'x-ratelimit-reset': String(Date.now() / 1000 + 1),
    'x-ratelimit-reset-after': '1',
    'x-ratelimit-bucket': bucket,
    ...(status === 204 ? {} : { 'content-type': 'application/json' }),
    ...headers,
  });
  response.end(status === 204 ? undefined : JSON.stringify(body));
}

/** "Invalid Form Body" with the places and problems that the answer names. */
function inWords(message: string, errors: unknown, path = ''): string {
  const found: string[] = [];
  const walk = (level: unknown, here: string): void => {
    if (typeof level !== 'object' || level === null) return;
    for (const [key, value] of Object.entries(level)) {
      if (key !== '_errors') walk(value, here ? `${here}.${key}` : key);
      else if (Array.isArray(value))
        found.push(...value.map((one: { message?: unknown }) => `${here || 'body'}: ${String(one.message)}`));
    }
  };
  walk(errors, path);
  return found.length ? `${message}: ${found.join('; ')}` : message;
}
