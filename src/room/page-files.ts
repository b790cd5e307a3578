import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ServerResponse } from 'node:http';

const FILES: Record<string, { file: string; type: string }> = {
  '/': { file: 'index.html', type: 'text/html; charset=utf-8' },
  '/page.js': { file: 'page.js', type: 'text/javascript; charset=utf-8' },
  '/page.css': { file: 'page.css', type: 'text/css; charset=utf-8' },
};
// Nothing is loaded from elsewhere, and nobody may put the room in a frame.
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "form-action 'none'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Serves a file of the built page; false when the path is none of them. The page gets the session key in its head. */
export async function servePageFile(
  folder: string,
  path: string,
  key: string,
  response: ServerResponse,
): Promise<boolean> {
  const known = FILES[path];
  if (!known) return false;
  const text = await readFile(join(folder, known.file), 'utf8');
  response.writeHead(200, {
    'content-type': known.type,
    'content-security-policy': POLICY,
    'cache-control': 'no-store',
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
  });
  response.end(path === '/' ? text.replace('name="room-key" content=""', `name="room-key" content="${key}"`) : text);
  return true;
}
