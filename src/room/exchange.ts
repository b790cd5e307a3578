import type { z } from 'zod';
import type { SentFile } from './message-body.ts';
import { formRefusal } from './form-refusal.ts';
import type { Contract } from './contract.ts';
import type { Interactions } from './interactions.ts';
import type { World } from './world.ts';
import type { Writer } from './write-message.ts';

/** One request as a route sees it. */
export type Exchange = {
  method: string;
  path: string;
  params: string[];
  query: URLSearchParams;
  body: unknown;
  files: ReadonlyMap<string, SentFile>;
};
export type Answer = { status: number; body?: unknown };
export type Route = {
  method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
  /** Matches the path behind `/api/v10`. */
  pattern: RegExp;
  /** Interaction tokens speak for themselves; everything else needs the bot's token. */
  auth: boolean;
  handle: (exchange: Exchange) => Answer | Promise<Answer>;
};

/** What the routes work on. */
export type RouteDeps = {
  world: World;
  writer: Writer;
  interactions: Interactions;
  contract: Contract;
  gatewayUrl: () => string;
};

export const route = (
  method: Route['method'],
  path: string,
  handle: Route['handle'],
  { auth = true }: { auth?: boolean } = {},
): Route => ({ method, pattern: new RegExp(`^${path.replace(/:\w+/g, '([^/]+)')}$`), auth, handle });

export const ok = (body: unknown): Answer => ({ status: 200, body });
export const nothing: Answer = { status: 204 };

/** Reads a body by a schema; what does not fit is refused as an invalid form. */
export function readBody<Schema extends z.ZodType>(schema: Schema, body: unknown): z.infer<Schema> {
  const parsed = schema.safeParse(body ?? {});
  if (parsed.success) return parsed.data;
  throw formRefusal(parsed.error.issues.map(({ path, message }) => ({ path, message })));
}
