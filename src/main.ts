import { setTimeout as wait } from 'node:timers/promises';
import { PermissionFlagsBits, OAuth2Scopes, Status } from 'discord.js';
import { startBot, type Bot } from './bot.ts';
import { systemClock } from './clock.ts';
import { createAbilities } from './commands.ts';
import { readConfig, type Config } from './config.ts';
import { CannotOpen, openDatabase } from './database/open.ts';
import { FolderInUse } from './database/lock.ts';
import { runStore } from './database/run.store.ts';
import { keepingPictures } from './drawing/kept-pictures.ts';
import { createPainter } from './drawing/painter.ts';
import { LoginCalledOff, loginProblem } from './discord/client.ts';
import type { Health } from './health.ts';
import { loadCompiledKnowledge } from './knowledge/compiled.loader.ts';
import { createLog, type Log } from './log.ts';
import { VERSION } from './version.ts';

/** Exit codes of sysexits(3): a mistake in the configuration, and a service that cannot be had. */
const EX_CONFIG = 78;
const EX_UNAVAILABLE = 69;
const LONGEST_WAIT_S = 60;

class Stop extends Error {
  readonly code: number;
  constructor(code: number, message: string) {
    super(message);
    this.code = code;
  }
}

async function main(): Promise<void> {
  const read = readConfig(process.env);
  if (!read.ok)
    throw new Stop(
      EX_CONFIG,
      ['The configuration cannot be used:', ...read.problems.map((problem) => `  ${problem}`)].join('\n'),
    );
  const { config } = read;
  const log = createLog(config.logLevel);
  const stopping = stopSignal();
  if (config.token === undefined) return practise(config, stopping);
  return serveClub(config, config.token, log, stopping);
}

/** Without a token: the practice room with a demo club, and the same bot in it. */
async function practise(config: Config, stopping: AbortSignal): Promise<void> {
  const { openPractice } = await import('./room/practice.ts');
  const practice = await openPractice({
    port: config.roomPort,
    knowledgeFile: new URL('./knowledge.json', import.meta.url),
    pageFolder: new URL('./page/', import.meta.url),
    demo: true,
    log: createLog(config.logLevel === 'info' ? 'warn' : config.logLevel),
  }).catch((error: unknown) => {
    throw error instanceof Error && Reflect.get(error, 'code') === 'EADDRINUSE'
      ? new Stop(
          EX_CONFIG,
          `ROOM_PORT: port ${config.roomPort} is taken, perhaps by another practice room. Close that one, or set ROOM_PORT to another number.`,
        )
      : error;
  });
  console.log(`No DISCORD_TOKEN is set, so the practice room is open: ${practice.url}
Nothing leaves this computer. Press Ctrl+C to close it.`);
  await aborted(stopping);
  await practice.close();
}

async function serveClub(config: Config, token: string, log: Log, stopping: AbortSignal): Promise<void> {
  let bot: Bot | undefined;
  const health =
    config.healthPort === undefined ? undefined : await openHealth(config.healthPort, () => isConnected(bot));
  const { db, close } = openDatabase(config.dataFolder);
  const painter = createPainter();
  const runs = runStore(db);
  const run = runs.begin(VERSION, systemClock.now());
  if (run.previousWasCutOff) log.warn({}, 'the last run was cut off; the database is whole and nothing has to be done');
  try {
    const base = loadCompiledKnowledge(new URL('./knowledge.json', import.meta.url));
    const abilities = createAbilities(base, { db, paint: keepingPictures((svg, width) => painter.paint(svg, width)) });
    log.debug({ entries: base.critters.size }, 'loaded');
    bot = await connect(
      stopping,
      () =>
        startBot({
          token,
          ...(config.apiUrl ? { apiUrl: config.apiUrl } : {}),
          mentions: config.mentions,
          scope: config.guildId ? { kind: 'guild', guildId: config.guildId } : { kind: 'global' },
          onlyGuilds: config.onlyGuilds,
          abilities,
          clock: systemClock,
          log,
          signal: stopping,
        }),
      config.apiUrl,
    );
    if (bot) {
      log.info(
        { servers: bot.client.guilds.cache.size, entries: base.critters.size, commands: bot.registration },
        'ready',
      );
      console.log(
        `Ready in ${bot.client.guilds.cache.size} servers with ${base.critters.size} entries.\nInvite: ${inviteOf(bot)}`,
      );
      await aborted(stopping);
    }
  } finally {
    await bot?.stop();
    health?.close();
    await painter.close();
    runs.end(run.id, systemClock.now());
    close();
  }
}

/** The web server is a tenth of a start, and only a host who asks for the port needs it. */
async function openHealth(port: number, isReady: () => boolean): Promise<Health> {
  const { serveHealth, HealthPortTaken } = await import('./health.ts');
  return serveHealth(port, isReady).catch((error: unknown) => {
    throw error instanceof HealthPortTaken ? new Stop(EX_CONFIG, error.message) : error;
  });
}

/** Tries to connect until it succeeds or the stop comes; only what waiting can mend is tried again. */
async function connect(stopping: AbortSignal, start: () => Promise<Bot>, apiUrl?: string): Promise<Bot | undefined> {
  for (let pauseS = 5; !stopping.aborted; pauseS = Math.min(LONGEST_WAIT_S, pauseS * 2)) {
    try {
      return await start();
    } catch (error) {
      if (error instanceof LoginCalledOff) return undefined;
      const { kind, message } = loginProblem(error, apiUrl);
      if (kind === 'refused' || kind === 'intents' || kind === 'no-access') throw new Stop(EX_CONFIG, message);
      if (kind === 'other') throw new Stop(EX_UNAVAILABLE, message);
      console.error(`${message}\nTrying again in ${pauseS} s.`);
      await wait(pauseS * 1_000, undefined, { signal: stopping }).catch(() => undefined);
    }
  }
  return undefined;
}

/** Whether every connection to Discord stands at this moment. */
const isConnected = (bot: Bot | undefined) =>
  bot !== undefined && [...bot.client.ws.shards.values()].every(({ status }) => status === Status.Ready);

/** Exactly the permissions that the answers need, and none more. */
function inviteOf({ client }: Bot): string {
  return client.generateInvite({
    scopes: [OAuth2Scopes.Bot, OAuth2Scopes.ApplicationsCommands],
    permissions: [
      PermissionFlagsBits.ViewChannel,
      PermissionFlagsBits.SendMessages,
      PermissionFlagsBits.SendMessagesInThreads,
      PermissionFlagsBits.CreatePublicThreads,
      PermissionFlagsBits.AttachFiles,
      PermissionFlagsBits.ReadMessageHistory,
    ],
  });
}

/** Aborts on the first SIGTERM or SIGINT; a second one ends the process at once. */
function stopSignal(): AbortSignal {
  const controller = new AbortController();
  for (const signal of ['SIGTERM', 'SIGINT'] as const)
    process.on(signal, () => {
      if (controller.signal.aborted) process.exit(1);
      controller.abort();
    });
  return controller.signal;
}

const aborted = (signal: AbortSignal) =>
  new Promise<void>((resolve) => {
    if (signal.aborted) resolve();
    else signal.addEventListener('abort', () => resolve(), { once: true });
  });

main().then(
  () => process.exit(0),
  (error: unknown) => {
    const isConfiguration = [FolderInUse, CannotOpen].some((kind) => error instanceof kind);
    if (error instanceof Error && (isConfiguration || error instanceof Stop)) console.error(error.message);
    else console.error(error);
    process.exit(error instanceof Stop ? error.code : isConfiguration ? EX_CONFIG : 1);
  },
);
