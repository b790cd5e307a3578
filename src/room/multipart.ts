import type { IncomingMessage } from 'node:http';
import type { SentFile } from './message-body.ts';
import { Refusal } from './refusal.ts';

const LIMIT_BYTES = 100 * 1024 * 1024;

export type ReadRequest = { body: unknown; files: Map<string, SentFile> };

/** Reads all of a request's body. */
export async function readBytes(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request) {
    const bytes = Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
    size += bytes.length;
    if (size > LIMIT_BYTES) throw new Refusal(413, 40005, 'Request entity too large');
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
}

/** JSON, or a form with `payload_json` and `files[n]`. */
export async function readPayload(bytes: Buffer, contentType: string): Promise<ReadRequest> {
  if (bytes.length === 0) return { body: undefined, files: new Map() };
  if (!contentType.startsWith('multipart/form-data'))
    return { body: readJson(bytes.toString('utf8')), files: new Map() };
  const form = await new Response(new Uint8Array(bytes), { headers: { 'content-type': contentType } }).formData();
  const files = new Map<string, SentFile>();
  for (const [key, value] of form) {
    const n = /^files\[(\d+)\]$/.exec(key)?.[1];
    if (n === undefined || typeof value === 'string') continue;
    files.set(n, {
      name: value.name,
      type: value.type || typeOf(value.name),
      data: Buffer.from(await value.arrayBuffer()),
    });
  }
  const payload = form.get('payload_json');
  return { body: typeof payload === 'string' ? readJson(payload) : {}, files };
}

const TYPES: Record<string, string> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  gif: 'image/gif',
  webp: 'image/webp',
  svg: 'image/svg+xml',
  csv: 'text/csv; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
  json: 'application/json',
  ics: 'text/calendar; charset=utf-8',
  pdf: 'application/pdf',
};

/** The media type that a file name promises. */
export const typeOf = (name: string): string =>
  TYPES[name.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream';

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Refusal(400, 50109, 'The request body contains invalid JSON.');
  }
}
