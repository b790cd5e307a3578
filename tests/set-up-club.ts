import { pino } from 'pino';
import { expect, onTestFinished } from 'vitest';
import { startBot, type Bot, type BotOptions } from '../src/bot.ts';
import { createAbilities } from '../src/commands.ts';
import { loadCompiledKnowledge } from '../src/knowledge/compiled.loader.ts';
import type { KnowledgeBase } from '../src/knowledge/knowledge-base.ts';
import type { Log } from '../src/log.ts';
import { openRoom, type Room } from '../src/room/open-room.ts';
import { openPractice, type Practice, type PracticeOptions } from '../src/room/practice.ts';
import type { RecordedRequest } from '../src/room/recorder.ts';
import type { RoomOptions } from '../src/room/room.ts';
import { built } from './set-up-build.ts';

export type LogLine = { level: number; msg: string } & Record<string, unknown>;
export const WARN = 40;
export const ERROR = 50;

let loaded: KnowledgeBase | undefined;

/** The knowledge base that the club answers from. */
export const knowledge = (): KnowledgeBase => (loaded ??= loadCompiledKnowledge(built('knowledge.json')));

/** A log that keeps its lines. */
export function keptLog(): { log: Log; lines: LogLine[] } {
  const lines: LogLine[] = [];
  const log = pino({ level: 'debug', base: null }, { write: (line: string) => void lines.push(JSON.parse(line)) });
  return { log, lines };
}

type Expected = {
  /** The test is about a refusal, so the contract may have been broken at its end. */
  breaches?: 'expected';
};

/** The practice room with the real bot in it; at the end of the test nothing may have been refused. */
export async function openClub({ breaches, ...options }: Partial<PracticeOptions> & Expected = {}): Promise<
  Practice & { lines: LogLine[] }
> {
  const { log, lines } = keptLog();
  const file = built('knowledge.json');
  const practice = await openPractice({
    contract: 'strict',
    settleMs: 15,
    knowledgeFile: file,
    base: knowledge(),
    log,
    ...options,
  });
  onTestFinished(async () => {
    await practice.close();
    if (breaches !== 'expected') expect(practice.room.contract.breaches()).toEqual([]);
  });
  return { ...practice, lines };
}

/** A room and the bot as a test wants it, for what the practice room does not offer. */
export async function openRoomWithBot(
  roomOptions: RoomOptions = {},
  { breaches, ...botOptions }: Partial<BotOptions> & Expected = {},
): Promise<{ room: Room; bot: Bot; lines: LogLine[] }> {
  const { log, lines } = keptLog();
  const room = await openRoom({ contract: 'strict', settleMs: 15, ...roomOptions });
  const bot = await startBot({
    token: 'practice',
    apiUrl: room.apiUrl,
    mentions: true,
    scope: { kind: 'global' },
    onlyGuilds: [],
    abilities: createAbilities(knowledge()),
    clock: room.clock,
    log,
    ...botOptions,
  });
  onTestFinished(async () => {
    await bot.stop();
    await room.close();
    if (breaches !== 'expected') expect(room.contract.breaches()).toEqual([]);
  });
  return { room, bot, lines };
}

/** `name(critter: bristle worm)` as the room's actors take it. */
export const named = (critter: string) => [{ name: 'critter', value: critter }];

/** The requests that answered interactions. */
export const callbacks = (room: Room): RecordedRequest[] =>
  room.requests.all().filter(({ method, path }) => method === 'POST' && path.endsWith('/callback'));

/** The lines that a reader sees. */
export const linesOf = (text: string): string[] => text.split('\n');

/** The first line without its heading mark. */
export const titleOf = ({ text }: { text: string }): string => (linesOf(text)[0] ?? '').replace(/^#+ /, '');
