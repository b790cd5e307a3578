import type { ServerResponse } from 'node:http';
import type { Room } from './open-room.ts';

/** Changes within this time are told as one, in milliseconds. */
const GATHER = 25;
/** A line without news is kept open by a remark this often, in milliseconds. */
const HEARTBEAT = 20_000;

/** Tells a page, as server-sent events, that something in the room has changed. What, it asks for itself. */
export function streamChanges(room: Room, response: ServerResponse): void {
  response.writeHead(200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    'x-accel-buffering': 'no',
  });
  response.write('retry: 1000\n\n');
  let gathering: NodeJS.Timeout | null = null;
  const tell = () => {
    gathering ??= setTimeout(() => {
      gathering = null;
      response.write('event: changed\ndata: {}\n\n');
    }, GATHER);
  };
  const stopWorld = room.world.onChange(tell);
  const stopClock = room.clock.onAdvance(tell);
  const heartbeat = setInterval(() => response.write(': still here\n\n'), HEARTBEAT);
  response.on('close', () => {
    stopWorld();
    stopClock();
    clearInterval(heartbeat);
    if (gathering) clearTimeout(gathering);
  });
}
