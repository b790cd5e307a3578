import { Events, type Client } from 'discord.js';
import { startTicking, type Clock, type Ticking } from './clock.ts';
import type { Abilities } from './commands.ts';
import { createClient, createRest, logIn } from './discord/client.ts';
import { definitionsOf } from './discord/definitions.ts';
import { dispatch } from './discord/dispatch.ts';
import { answerMention } from './discord/mention.ts';
import { askDiscordTime, createDelivery, createDeliveryRest } from './discord/send.ts';
import { registerCommands, type RegistrationDiff, type Scope } from './discord/register.ts';
import type { Log } from './log.ts';
import { clockTrust } from './outbox/clock-trust.worker.ts';
import { lastTurnStore } from './outbox/last-turn.store.ts';
import { outboxWorker } from './outbox/outbox.worker.ts';

export type BotOptions = {
  token: string;
  apiUrl?: string;
  mentions: boolean;
  scope: Scope;
  /** Servers the bot stays in; empty: all. */
  onlyGuilds: readonly string[];
  abilities: Abilities;
  clock: Clock;
  log: Log;
  /** Hears of every turn of the clock: called when it begins, and what that gives back when it is over. */
  busy?: () => () => void;
  /** Ends a login that is under way. */
  signal?: AbortSignal;
};

export type Bot = { client: Client<true>; registration: RegistrationDiff; stop: () => Promise<void> };

/** How long a stop waits for answers that are under way. */
const DRAIN_MS = 3_000;

/**
 * Logs in, registers what differs, and answers until `stop`.
 *
 * @throws whatever the login throws; `loginProblem` puts it in words.
 */
export async function startBot(options: BotOptions): Promise<Bot> {
  const { abilities, clock, log } = options;
  const client = createClient(options);
  const underWay = new Set<Promise<void>>();
  const time: { ticking?: Ticking } = {};
  const handled = new RecentIds();
  const track = (work: Promise<void>) => {
    const settled = work.finally(() => underWay.delete(settled));
    underWay.add(settled);
  };

  client.on(Events.InteractionCreate, (interaction) => {
    if (handled.seenBefore(interaction.id)) return;
    // Most answers leave nothing to deliver, and a turn costs more than an answer.
    const deliver = () => (abilities.outbox.outbox.hasNews() ? time.ticking?.soon() : undefined);
    track(dispatch(abilities, interaction, clock.now(), log).finally(deliver));
  });
  client.on(Events.MessageCreate, (message) => {
    if (handled.seenBefore(message.id)) return;
    track(answerMention(abilities.mention, abilities.paint, message, clock.now(), log));
  });
  client.on(Events.Error, (error) => log.warn({ err: error }, 'the connection reported an error'));
  client.on(Events.GuildCreate, (guild) => {
    if (!staysIn(options, guild.id)) leave(guild, log);
  });

  client.on(Events.ShardReconnecting, () => log.warn('the connection to Discord was lost; it is being made again'));
  client.on(Events.ShardResume, () => log.info('the connection to Discord is back'));

  let ready: Client<true>;
  let registration: RegistrationDiff;
  try {
    const loggingIn = logIn(client, options.token, options.signal);
    // Discord takes its time to answer; the index is built meanwhile.
    abilities.warmUp();
    ready = await loggingIn;
    registration = await registerCommands(
      createRest(options.token, options.apiUrl),
      ready.application.id,
      definitionsOf(abilities.all, abilities.entries),
      options.scope,
    );
  } catch (error) {
    client.removeAllListeners();
    await client.destroy();
    throw error;
  }
  for (const guild of ready.guilds.cache.values()) if (!staysIn(options, guild.id)) leave(guild, log);
  const stopping = new AbortController();
  time.ticking = startTimePassing(options, ready.user.id, stopping.signal);
  return {
    client: ready,
    registration,
    stop: async () => {
      stopping.abort();
      client.removeAllListeners(Events.ShardReconnecting);
      client.removeAllListeners(Events.InteractionCreate);
      client.removeAllListeners(Events.MessageCreate);
      let timer: NodeJS.Timeout | undefined;
      await Promise.race([
        Promise.allSettled([...underWay, time.ticking?.stop()]),
        new Promise((resolve) => {
          timer = setTimeout(resolve, DRAIN_MS);
        }),
      ]);
      clearTimeout(timer);
      await client.destroy();
    },
  };
}

/** The road of time: what is due becomes messages in the outbox, and the outbox is delivered. */
function startTimePassing(options: BotOptions, botId: string, stopping: AbortSignal): Ticking {
  const { abilities, clock, log, token, apiUrl, busy } = options;
  const rest = createDeliveryRest(token, apiUrl);
  const trust = clockTrust({
    lastTurn: lastTurnStore(abilities.outbox.db),
    ask: () => askDiscordTime(rest()),
    now: clock.now,
    onDoubt: (words, askAgainAt) => log.warn({ askAgainAt }, words),
    onConfirmed: (lastTurn, now) => log.info({ lastTurn, now }, "Discord's clock confirms ours after a long pause"),
  });
  const worker = outboxWorker({
    ...abilities.outbox,
    delivery: createDelivery(rest, botId),
    now: clock.now,
    isSteady: trust.isSteady,
    onFailed: ({ id, topic }, { kind, ...outcome }) => log.warn({ id, topic, kind, ...outcome }, 'not delivered'),
  });
  const tick = async () => {
    const done = busy?.();
    try {
      // A doubtful clock may not say what is due either.
      const held = await trust.heldUntil();
      if (held || stopping.aborted) return held;
      abilities.fireDue(clock.now());
      return await worker.deliverPending(stopping);
    } finally {
      done?.();
    }
  };
  return startTicking(clock, tick, (error) => log.error({ err: error }, 'a turn of the clock failed'));
}

const staysIn = ({ onlyGuilds }: BotOptions, guildId: string) =>
  onlyGuilds.length === 0 || onlyGuilds.includes(guildId);

function leave(guild: { id: string; leave: () => Promise<unknown> }, log: Log): void {
  log.warn({ guild: guild.id }, 'left a server that is not in ONLY_GUILDS');
  guild.leave().catch((error: unknown) => log.warn({ err: error, guild: guild.id }, 'could not leave a server'));
}

/** The last few thousand ids, so that an event replayed after a dropped connection is answered once. */
class RecentIds {
  readonly #ids = new Set<string>();

  seenBefore(id: string): boolean {
    if (this.#ids.has(id)) return true;
    this.#ids.add(id);
    if (this.#ids.size > 5_000)
      for (const oldest of this.#ids) {
        this.#ids.delete(oldest);
        break;
      }
    return false;
  }
}
