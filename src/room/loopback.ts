import type { IncomingMessage } from 'node:http';

const NAMES = new Set(['127.0.0.1', 'localhost', '::1', '[::1]']);

/** Refuses every address but this machine's own. */
export function requireLoopback(host: string): string {
  if (!NAMES.has(host))
    throw new Error(`the practice room opens on this machine only (127.0.0.1, ::1 or localhost), not on "${host}"`);
  return host.replace(/^\[|\]$/g, '');
}

/**
 * Whether a request is meant for this room. A foreign Host means that somebody's name points here, a foreign Origin
 * that somebody's page does; neither has any business in the room.
 */
export function isOwnRequest(request: IncomingMessage, port: number): boolean {
  const { host, origin } = request.headers;
  const own = (address: string) => {
    const at = URL.canParse(`http://${address}`) ? new URL(`http://${address}`) : null;
    return at !== null && NAMES.has(at.hostname) && Number(at.port || 80) === port;
  };
  return (
    host !== undefined && own(host) && (origin === undefined || (origin.startsWith('http://') && own(origin.slice(7))))
  );
}
