import { setTimeout as sleep } from 'node:timers/promises';
import type { Activity } from './activity.ts';
import { ActRefused } from './act-refused.ts';
import type { Interactions, LiveInteraction } from './interactions.ts';
import { LOADING } from './message-body.ts';
import type { ActResult, SeenModal } from './room.ts';
import { seeMessage } from './seen-message.ts';
import type { World } from './world.ts';
import type { RoomChange, WorldMember, WorldMessage } from './world-shapes.ts';

// A deferred answer may take its time, but a script must not hang on it.
const DEFERRED_MS = 15_000;
const DEFERRED_UPDATE_MS = 2_000;
const UNHEARD_MS = 20;

export type ActDeps = {
  world: World;
  interactions: Interactions;
  activity: Activity;
  origin: () => string;
  firstResponseMs: number;
  settleMs: number;
};

/** Plays an act that the bot owes an answer, and gathers what it brought about for the member. */
export function playAct(deps: ActDeps, member: WorldMember, begin: () => LiveInteraction): Promise<ActResult> {
  return gathered(deps, member, async (collected) => {
    const live = begin();
    if (!(await within(live.responded, deps.firstResponseMs))) return { error: tooLate(deps) };
    if (live.state === 'deferred' && !(await within(live.shown, DEFERRED_MS))) {
      return { error: `the bot said that it is working, but showed nothing within ${DEFERRED_MS / 1000} seconds` };
    }
    if (live.state === 'deferred-update') await within(collected.firstChange, DEFERRED_UPDATE_MS);
    // Choices bring nothing after them.
    if (live.choices) return { choices: live.choices };
    await deps.activity.quiet(deps.settleMs);
    return {};
  });
}

/** Plays something said; the bot owes an answer only to what is said to it. */
export function playSaying(deps: ActDeps, member: WorldMember, begin: () => WorldMessage): Promise<ActResult> {
  return gathered(deps, member, async (collected) => {
    const message = begin();
    const direct = deps.world.channels.get(message.channelId)?.type === 1;
    if (!direct && !message.mentionIds.includes(deps.world.members.bot.id)) {
      await deps.activity.quiet(Math.min(UNHEARD_MS, deps.settleMs));
      return {};
    }
    if (!(await within(collected.firstChange, deps.firstResponseMs))) return { error: tooLate(deps) };
    await deps.activity.quiet(deps.settleMs);
    return {};
  });
}

type Collected = { firstChange: Promise<void> };

/** Follows the world while an act is played; what the bot wrote or changed for the member are the replies. */
async function gathered(
  { world }: ActDeps,
  member: WorldMember,
  play: (collected: Collected) => Promise<Partial<ActResult>>,
): Promise<ActResult> {
  const touched = new Map<string, WorldMessage>();
  const opened: { modal?: SeenModal } = {};
  let markChange = () => {};
  const firstChange = new Promise<void>((resolve) => (markChange = resolve));
  const follow = (change: RoomChange) => {
    if (change.kind === 'reaction' && change.memberId === world.members.bot.id) markChange();
    if (change.kind === 'modal' && change.memberId === member.id && change.modal) opened.modal = change.modal;
    if (change.kind !== 'message' || change.message.authorId !== world.members.bot.id) return;
    if (change.change === 'deleted') touched.delete(change.message.id);
    else touched.set(change.message.id, change.message);
    markChange();
  };
  const stop = world.onChange(follow);
  try {
    const outcome = await play({ firstChange });
    return {
      replies: [...touched.values()]
        .filter((one) => isFor(world, member, one))
        .map((one) => seeMessage(world, one, member)),
      ...opened,
      ...outcome,
    };
  } catch (error) {
    if (error instanceof ActRefused) return { replies: [], error: error.message };
    throw error;
  } finally {
    stop();
  }
}

function isFor(world: World, member: WorldMember, message: WorldMessage): boolean {
  const channel = world.channels.get(message.channelId);
  const visible = channel !== undefined && world.canSee(member, channel);
  return visible && !(message.flags & LOADING) && (message.viewerId === null || message.viewerId === member.id);
}

const tooLate = ({ firstResponseMs }: ActDeps) => `the bot did not answer within ${firstResponseMs / 1000} seconds`;

async function within(promise: Promise<void>, ms: number): Promise<boolean> {
  const given = new AbortController();
  const late = sleep(ms, false, { signal: given.signal }).catch(() => false);
  const came = await Promise.race([promise.then(() => true), late]);
  given.abort();
  return came;
}
