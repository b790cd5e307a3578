import { openRoom } from '../../src/room/open-room.ts';
import { dice } from './dice.ts';
import { scriptFaults } from './scripted-faults.ts';
import type { DiscordReport } from './report.ts';
import { NONCE_WINDOW_MS, scaledClock } from './scaled-time.ts';

// The fake Discord in a process of its own, which outlives every kill of the other one. Asked for a report it gives one.

const { STARTED_MS, MEMBERS, SEED, HTTP_FAULTS, SLOW_MS } = process.env;
const clock = scaledClock(Number(STARTED_MS));
const room = await openRoom({ contract: 'strict', clock });
const { messages, members, channels } = room.world;

let deduped = 0;
const withNonce = messages.withNonce;
messages.withNonce = (...asked) => {
  const found = withNonce(...asked);
  const isKnown = found && clock.now().getTime() - found.createdAt.getTime() <= NONCE_WINDOW_MS;
  if (isKnown) deduped += 1;
  return isKnown ? found : undefined;
};
// The history of the real one tells no nonce.
const inChannel = messages.in;
messages.in = (channelId) => inChannel(channelId).map((message) => ({ ...message, nonce: null }));

const memberIds = Array.from({ length: Number(MEMBERS) }, (_, n) => members.declare({ name: `keeper ${n}` }).id);
const places = memberIds.flatMap((id) => {
  const member = members.get(id);
  return member ? [channels.directWith(member).id] : [];
});
const scripted = HTTP_FAULTS === 'yes' ? scriptFaults(room.faults, places, dice(Number(SEED))) : 0;
if (SLOW_MS !== undefined)
  room.faults.add({ match: /^POST .*\/messages$/, kind: 'delay', when: 'after-commit', ms: Number(SLOW_MS), times: 1 });

const report = (): DiscordReport => {
  const requests = room.requests.all();
  return {
    delivered: messages.all().map(({ components, channelId }) => ({ channelId, body: JSON.stringify(components) })),
    faults: scripted - room.faults.left().reduce((sum, { times }) => sum + times, 0),
    lookUps: requests.filter(({ method, path }) => method === 'GET' && path.endsWith('/messages')).length,
    deduped,
    requests: requests.map(({ method, path, status, at }) => ({
      what: `${method} ${path}`,
      status,
      atMs: at.getTime(),
    })),
    breaches: room.contract.breaches().map(({ why }) => why),
  };
};
process.on('message', () => process.send?.({ report: report() }));
process.on('disconnect', () => process.exit(0));
process.send?.({ open: { apiUrl: room.apiUrl, botId: members.bot.id, memberIds } });
