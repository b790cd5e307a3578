import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startBot, type Bot } from '../bot.ts';
import { createAbilities } from '../commands.ts';
import { openDatabase, type OpenDatabase } from '../database/open.ts';
import { runStore } from '../database/run.store.ts';
import { loadCompiledKnowledge } from '../knowledge/compiled.loader.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Paint } from '../discord/painted.ts';
import { keepingPictures } from '../drawing/kept-pictures.ts';
import { createPainter } from '../drawing/painter.ts';
import type { Log } from '../log.ts';
import { VERSION } from '../version.ts';
import { seedDemoClub } from './demo-club.ts';
import { openRoom, type Room } from './open-room.ts';
import { openPage } from './page-api.ts';
import type { RoomClock, RoomOptions } from './room.ts';

export type PracticeOptions = {
  port?: number;
  clock?: RoomClock;
  contract?: RoomOptions['contract'];
  settleMs?: number;
  knowledgeFile: URL | string;
  /** The knowledge base, where it was loaded already. */
  base?: KnowledgeBase;
  /** Folder with the built page; without it there is none. */
  pageFolder?: URL | string;
  /** Keep the database here; default: a folder that is removed at the end. */
  dataFolder?: string;
  /** Members and talk to begin with; default: nobody. */
  demo?: boolean;
  mentions?: boolean;
  log: Log;
  /** Paints the pictures; default: a painter of its own. */
  paint?: Paint;
};

export type Practice = {
  room: Room;
  url: string;
  bot: () => Bot;
  /** Stops the bot and starts it on the same database. */
  restart: () => Promise<void>;
  close: () => Promise<void>;
};

/** Opens a practice room and lets the bot log in to it, exactly as it would log in to Discord. */
export async function openPractice(options: PracticeOptions): Promise<Practice> {
  const temporary = options.dataFolder === undefined;
  const folder = options.dataFolder ?? mkdtempSync(join(tmpdir(), 'reef-club-'));
  const page = options.pageFolder ? openPage({ folder: pathOf(options.pageFolder), seed: seedDemoClub }) : undefined;
  const room = await openRoom({
    ...(options.port === undefined ? {} : { port: options.port }),
    ...(options.clock ? { clock: options.clock } : {}),
    ...(options.contract ? { contract: options.contract } : {}),
    ...(options.settleMs === undefined ? {} : { settleMs: options.settleMs }),
    ...(page ? { extend: page.extend } : {}),
  });
  if (options.demo) seedDemoClub(room);
  const base = options.base ?? loadCompiledKnowledge(options.knowledgeFile);
  const painter = createPainter();
  const paint = options.paint ?? keepingPictures((svg, width) => painter.paint(svg, width));

  const start = async (): Promise<{ bot: Bot; database: OpenDatabase; end: () => void }> => {
    const database = openDatabase(folder);
    const runs = runStore(database.db);
    const { id } = runs.begin(VERSION, room.clock.now());
    const bot = await startBot({
      token: 'practice',
      apiUrl: room.apiUrl,
      mentions: options.mentions ?? true,
      scope: { kind: 'global' },
      onlyGuilds: [],
      abilities: createAbilities(base, { db: database.db, paint }),
      clock: room.clock,
      busy: room.busy,
      log: options.log,
    });
    return { bot, database, end: () => runs.end(id, room.clock.now()) };
  };
  let running = await start();
  const stop = async () => {
    await running.bot.stop();
    running.end();
    running.database.close();
  };

  return {
    room,
    url: room.origin,
    bot: () => running.bot,
    restart: async () => {
      await stop();
      running = await start();
    },
    close: async () => {
      await stop();
      await room.close();
      await painter.close();
      if (temporary) rmSync(folder, { recursive: true, force: true });
    },
  };
}

const pathOf = (place: URL | string) => (typeof place === 'string' ? place : fileURLToPath(place));
