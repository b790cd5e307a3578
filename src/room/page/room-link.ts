import type { PageAct, PageAnswer, PageFile, PageState } from '../page-shapes.ts';

// The page's line to the room. The key is fresh at every start of the room, so that other pages cannot act in it.

const key = document.querySelector<HTMLMetaElement>('meta[name="room-key"]')?.content ?? '';

/** Everything the named member can see now. */
export async function readState(as: string): Promise<PageState> {
  const response = await fetch(`/room/state?as=${encodeURIComponent(as)}`, { headers: { 'x-room-key': key } });
  if (!response.ok) throw new Error(`the room answered ${response.status}`);
  return (await response.json()) as PageState;
}

/** Plays one act. Trouble comes back as words, never as an exception. */
export async function playAct(act: PageAct): Promise<PageAnswer> {
  try {
    const response = await fetch('/room/act', {
      method: 'POST',
      headers: { 'x-room-key': key, 'content-type': 'application/json' },
      body: JSON.stringify(act),
    });
    return (await response.json()) as PageAnswer;
  } catch {
    return { error: 'The practice room does not answer. Is its program still running?' };
  }
}

/** Calls back whenever something changed, and with `false` while the line is down. */
export function followRoom(onChange: () => void, onLine: (up: boolean) => void): () => void {
  const events = new EventSource(`/room/events?key=${encodeURIComponent(key)}`);
  events.addEventListener('changed', onChange);
  events.onopen = () => {
    onLine(true);
    onChange();
  };
  events.onerror = () => onLine(false);
  return () => events.close();
}

/** Prepares a picked file for sending. */
export async function packFile(file: File, alt: string): Promise<PageFile> {
  const url = await new Promise<string>((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result));
    reader.onerror = () => failed(new Error(`${file.name} could not be read`));
    reader.readAsDataURL(file);
  });
  return { name: file.name, alt, base64: url.slice(url.indexOf(',') + 1) };
}
