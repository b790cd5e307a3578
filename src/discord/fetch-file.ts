import type { Fetched } from './message-view.ts';

const LONGEST_MS = 20_000;

/** Gets a file that a member attached, as far as it is not larger than allowed. Never throws. */
export async function fetchFile(url: string, mostBytes: number): Promise<Fetched> {
  try {
    const response = await fetch(url, { redirect: 'error', signal: AbortSignal.timeout(LONGEST_MS) });
    if (!response.ok || !response.body) return { kind: 'not-to-be-had' };
    const chunks: Uint8Array[] = [];
    let size = 0;
    const reader = response.body.getReader();
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      size += value.length;
      if (size > mostBytes) {
        await reader.cancel();
        return { kind: 'too-large' };
      }
      chunks.push(value);
    }
    return { kind: 'fetched', bytes: Buffer.concat(chunks) };
  } catch {
    return { kind: 'not-to-be-had' };
  }
}
