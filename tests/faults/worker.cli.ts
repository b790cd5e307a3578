import { startTicking } from '../../src/clock.ts';
import { FolderInUse } from '../../src/database/lock.ts';
import { openDatabase } from '../../src/database/open.ts';
import { askDiscordTime, createDelivery, createDeliveryRest } from '../../src/discord/send.ts';
import { courseStore } from '../../src/dosing/dose-course.store.ts';
import { coursesWorker } from '../../src/dosing/dose-courses.worker.ts';
import { clockTrust } from '../../src/outbox/clock-trust.worker.ts';
import { lastTurnStore } from '../../src/outbox/last-turn.store.ts';
import { outboxStore } from '../../src/outbox/outbox.store.ts';
import { outboxWorker } from '../../src/outbox/outbox.worker.ts';
import { GUILD_REQUESTS_A_SECOND, readPlan } from './plan.ts';
import { aroundSending, insideTransactions, killer } from './failpoints.ts';
import { scaledClock, TIMES_FASTER } from './scaled-time.ts';

// The road of time as the program walks it: fire, deliver, mark. It dies where its plan says, as often as it is started.

const plan = readPlan(process.env);
const clock = scaledClock(plan.startedMs);
const reach = killer(plan.failpoint);
const { db } = (() => {
  try {
    return openDatabase(plan.folder);
  } catch (error) {
    if (!(error instanceof FolderInUse)) throw error;
    console.error(error.message);
    return process.exit(78);
  }
})();
insideTransactions(db, reach);

const rest = createDeliveryRest('practice', plan.apiUrl);
// The client counts its requests by the machine's clock.
rest().options.globalRequestsPerSecond = GUILD_REQUESTS_A_SECOND * TIMES_FASTER;
const outbox = outboxStore(db);
const trust = clockTrust({
  lastTurn: lastTurnStore(db),
  ask: () => askDiscordTime(rest()),
  now: clock.now,
  onDoubt: (words) => console.error(words),
  onConfirmed: () => undefined,
});
const reminders = coursesWorker({ db, courses: courseStore(db), outbox });
const worker = outboxWorker({
  db,
  outbox: aroundSending(outbox, reach),
  delivery: createDelivery(rest, plan.botId),
  now: clock.now,
  isSteady: trust.isSteady,
  onSettled: ({ topic }) => void process.send?.({ settled: topic }),
  onFailed: () => undefined,
});
startTicking(
  clock,
  async () => {
    const held = await trust.heldUntil();
    if (held) return held;
    reminders.remindDue(clock.now());
    if (outbox.hasNews()) reach('after-firing');
    return worker.deliverPending();
  },
  (error) => console.error(error),
);
// How long the process was deaf at most: a database that is locked must not hold up the answers.
let longestMs = 0;
let heardMs = performance.now();
setInterval(() => {
  const gapMs = performance.now() - heardMs;
  heardMs += gapMs;
  if (gapMs <= longestMs) return;
  longestMs = gapMs;
  process.send?.({ deafMs: gapMs });
}, 5);

process.on('disconnect', () => process.exit(0));
process.send?.({ ready: true });
