import { randomUUID } from 'node:crypto';
import { WebSocket } from 'ws';

const RING = 2_000;

export type Session = ReturnType<typeof createSession>;

/** One identified session: its own sequence numbers, and what was sent lately for a resume. */
export function createSession(token: string, intents: number) {
  let seq = 0;
  let socket: WebSocket | null = null;
  let sent: { seq: number; frame: string }[] = [];
  return {
    id: randomUUID().replaceAll('-', ''),
    token,
    intents,
    socket: () => socket,
    attach(next: WebSocket | null): void {
      socket = next;
    },
    dispatch(type: string, data: unknown): void {
      seq += 1;
      const frame = JSON.stringify({ op: 0, t: type, s: seq, d: data });
      sent.push({ seq, frame });
      if (sent.length > RING) sent = sent.slice(-RING / 2);
      if (socket?.readyState === WebSocket.OPEN) socket.send(frame);
    },
    /** Whether everything after `after` is still at hand. */
    canReplay: (after: number): boolean => after <= seq && (after === seq || (sent[0]?.seq ?? seq + 1) <= after + 1),
    replay(after: number): void {
      for (const one of sent) if (one.seq > after) socket?.send(one.frame);
    },
  };
}
