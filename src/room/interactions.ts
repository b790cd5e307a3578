import { randomBytes } from 'node:crypto';
import { channelPayload, memberPayload, userPayload } from './payloads.ts';
import { expiredToken, unknownInteraction } from './refusal.ts';
import type { SeenModal } from './room.ts';
import type { Part } from './message-body.ts';
import type { World } from './world.ts';

const TOKEN_LIFE_MS = 15 * 60_000;

export type InteractionState = 'waiting' | 'deferred' | 'deferred-update' | 'answered' | 'modal' | 'choices';
export type Choice = { name: string; value: string | number };
export type OpenModal = {
  customId: string;
  title: string;
  parts: Part[];
  seen: SeenModal;
  channelId: string;
  messageId: string | null;
};

/** One interaction from its start to the end of its token. */
export type LiveInteraction = {
  id: string;
  token: string;
  /** 2 command, 3 component, 4 autocomplete, 5 modal. */
  type: 2 | 3 | 4 | 5;
  name: string;
  memberId: string;
  channelId: string;
  /** The message whose component was used, also through a modal that it opened. */
  sourceId: string | null;
  startedMs: number;
  createdAt: Date;
  state: InteractionState;
  ephemeral: boolean;
  originalId: string | null;
  choices: Choice[] | null;
  /** Resolves at the first response. */
  responded: Promise<void>;
  /** Resolves once something real was shown: at once, or when a deferred answer has got its text. */
  shown: Promise<void>;
  markResponded: () => void;
  markShown: () => void;
};

export type StartedBy = Pick<LiveInteraction, 'type' | 'name' | 'memberId' | 'channelId' | 'sourceId'>;
export type Interactions = ReturnType<typeof createInteractions>;

/** The interactions of the room: who started what, and how far its answer has come. */
export function createInteractions(deps: {
  world: World;
  firstResponseMs: number;
  dispatch: (type: string, data: unknown) => void;
}) {
  const { world } = deps;
  const byId = new Map<string, LiveInteraction>();
  const byToken = new Map<string, LiveInteraction>();
  const modals = new Map<string, OpenModal>();

  const start = (
    by: StartedBy,
    data: Record<string, unknown>,
    extra: Record<string, unknown> = {},
  ): LiveInteraction => {
    const { promise: responded, resolve: markResponded } = settledLater();
    const { promise: shown, resolve: markShown } = settledLater();
    const live: LiveInteraction = {
      ...by,
      id: world.nextId(),
      token: randomBytes(24).toString('base64url'),
      startedMs: performance.now(),
      createdAt: world.clock.now(),
      state: 'waiting',
      ephemeral: false,
      originalId: null,
      choices: null,
      responded,
      shown,
      markResponded,
      markShown,
    };
    byId.set(live.id, live);
    byToken.set(live.token, live);
    forgetOldOnes();
    deps.dispatch('INTERACTION_CREATE', interactionPayload(world, live, data, extra));
    return live;
  };

  /** Tokens die after 15 minutes anyway; forgetting them keeps a long run small. */
  const forgetOldOnes = () => {
    if (byId.size < 2_000) return;
    for (const live of [...byId.values()].slice(0, 1_000)) {
      byId.delete(live.id);
      byToken.delete(live.token);
    }
  };

  return {
    start,
    modals,
    /** The interaction that a first response belongs to; too late is as good as unknown. */
    forCallback(id: string, token: string): LiveInteraction {
      const live = byId.get(id);
      if (!live || live.token !== token) throw unknownInteraction();
      const late = live.state === 'waiting' && performance.now() - live.startedMs > deps.firstResponseMs;
      if (late) throw unknownInteraction();
      return live;
    },
    /** The interaction whose token is used for edits and follow-ups. */
    forWebhook(token: string): LiveInteraction {
      const live = byToken.get(token);
      if (!live || live.state === 'waiting') throw live ? unknownInteraction() : expiredToken();
      if (world.clock.now().getTime() - live.createdAt.getTime() > TOKEN_LIFE_MS) throw expiredToken();
      return live;
    },
    /** Notes the first response. */
    respond(live: LiveInteraction, state: InteractionState): void {
      live.state = state;
      live.markResponded();
      if (state !== 'deferred') live.markShown();
      world.emit({ kind: 'interaction', interactionId: live.id, memberId: live.memberId, state });
    },
    openModal(live: LiveInteraction, modal: OpenModal): void {
      modals.set(live.memberId, modal);
      world.emit({ kind: 'modal', memberId: live.memberId, modal: modal.seen });
    },
    closeModal(memberId: string): void {
      if (modals.delete(memberId)) world.emit({ kind: 'modal', memberId, modal: null });
    },
  };
}

function settledLater(): { promise: Promise<void>; resolve: () => void } {
  let resolve = () => {};
  const promise = new Promise<void>((done) => (resolve = done));
  return { promise, resolve };
}

function interactionPayload(
  world: World,
  live: LiveInteraction,
  data: Record<string, unknown>,
  extra: Record<string, unknown>,
) {
  const member = world.members.get(live.memberId);
  const channel = world.channels.get(live.channelId);
  if (!member || !channel) throw new Error('an interaction needs a member and a channel');
  const direct = channel.type === 1;
  const permissions = String(world.permissionsOf(member, channel));
  const who = direct
    ? { user: userPayload(member) }
    : {
        guild_id: world.guild.id,
        guild: { id: world.guild.id, locale: world.guild.locale, features: [] },
        guild_locale: world.guild.locale,
        member: { ...memberPayload(member), permissions, user: userPayload(member) },
      };
  return {
    id: live.id,
    application_id: world.applicationId,
    type: live.type,
    token: live.token,
    version: 1,
    data,
    channel_id: channel.id,
    channel: { ...channelPayload(world, channel), permissions },
    locale: member.locale,
    app_permissions: String(world.permissionsOf(world.members.bot, channel)),
    entitlements: [],
    authorizing_integration_owners: direct ? { 0: '0' } : { 0: world.guild.id },
    context: direct ? 1 : 0,
    attachment_size_limit: 10 * 1024 * 1024,
    ...who,
    ...extra,
  };
}
