import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRoom, type Room } from '../../src/room/open-room.ts';
import { quantile, type Row } from './figures.ts';
import { endProgram, startProgram } from './processes.ts';

const ROUNDS = 3;
const WARM_UP = 300;
const SAMPLES = 1_500;
/** Shaped like a bot token; the room takes any. */
export const BENCH_TOKEN = `${Buffer.from('123456789012345678').toString('base64url')}.aaaaaa.${'b'.repeat(27)}`;

/** `/critter name` through the real program against a bare "pong", turn by turn in one room. */
export async function benchRoundTrip(): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), 'reef-bench-'));
  const ping: number[] = [];
  const card: number[] = [];
  try {
    for (let round = 0; round < ROUNDS; round += 1) {
      ping.push(...(await measure('dist/bench-ping.js', {}, /^ready/, 'ping', [])));
      card.push(
        ...(await measure('dist/main.js', { DATA_DIR: folder, DISCORD_TOKEN: BENCH_TOKEN }, /^Ready/, 'critter', [
          { type: 1, name: 'name', options: [{ type: 3, name: 'critter', value: 'bristle worm' }] },
        ])),
      );
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const row = (what: string, share: number, goal: number | null): Row => {
    const ours = quantile(card, share);
    const floor = quantile(ping, share);
    return {
      what,
      ours: `${ours.toFixed(2)} ms`,
      floor: `${floor.toFixed(2)} ms`,
      ratio: (ours / floor).toFixed(2),
      goal: goal === null ? '' : `≤ ${goal}`,
      met: goal === null ? null : ours / floor <= goal,
    };
  };
  return [row('round trip /critter name, p50', 0.5, 1.5), row('round trip /critter name, p99', 0.99, null)];
}

async function measure(file: string, env: Record<string, string>, ready: RegExp, command: string, options: unknown[]) {
  const room = await openRoom({ contract: 'off' });
  const { child } = await startProgram(file, { ...env, DISCORD_API: room.apiUrl }, ready);
  try {
    const ask = asker(room, command, options);
    for (let at = 0; at < WARM_UP; at += 1) await ask();
    const samples: number[] = [];
    for (let at = 0; at < SAMPLES; at += 1) samples.push(await ask());
    return samples;
  } finally {
    await endProgram(child);
    await room.close();
  }
}

/** Sends one interaction and tells the milliseconds until its answer was taken. */
function asker({ world, interactions, actor }: Room, command: string, options: unknown[]) {
  actor('bench');
  const member = world.members.named('bench');
  const registered = world.commands.all().find(({ name }) => name === command);
  if (!member || !registered) throw new Error(`the command ${command} is not registered`);
  const channelId = world.mainChannel().id;
  return async () => {
    const startedMs = performance.now();
    const live = interactions.start(
      { type: 2, name: command, memberId: member.id, channelId, sourceId: null },
      { id: registered.id, name: command, type: 1, options },
    );
    await live.responded;
    const took = performance.now() - startedMs;
    for (const message of world.messages.all()) world.messages.remove(message);
    return took;
  };
}
