import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { createLog } from '../log.ts';
import { inTerminal, playLine } from './ask.ts';
import { openPractice } from './practice.ts';
import { createRoomClock } from './room-clock.ts';

const USAGE = `npm run --silent ask -- [--json] [--data DIR] [--at INSTANT] [--file SCRIPT | 'LINE' ...]

  @ines /critter name critter:bristle worm    a slash command
  @ines types /critter name critter:brist     what is offered while typing
  @ines press LABEL                           a button of the newest message; an unfinished label ends in …
  @ines choose LABEL = option, option         a select
  @ines fill LABEL = text; LABEL = text       the form that is open
  @ines says @bot is a bristle worm bad?      a message
  @ines menu ENTRY                            a message-menu entry on the newest message of somebody else
  member ines curator zone=Europe/Lisbon      declares a member
  clock +3d · clock 2026-12-01T19:00Z         moves the clock
  restart                                     stops the bot and starts it on the same database`;

async function main(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      json: { type: 'boolean' },
      data: { type: 'string' },
      at: { type: 'string' },
      file: { type: 'string' },
      help: { type: 'boolean', short: 'h' },
    },
  });
  const lines = values.file ? readFileSync(values.file, 'utf8').split('\n') : positionals;
  if (values.help || lines.length === 0) {
    console.log(USAGE);
    return values.help ? 0 : 2;
  }
  const start = values.at === undefined ? undefined : new Date(values.at);
  if (start && Number.isNaN(start.getTime())) {
    console.error(`--at: came ${values.at}, expected an instant such as 2026-12-01T19:00Z`);
    return 2;
  }
  const practice = await openPractice({
    clock: createRoomClock(start),
    knowledgeFile: new URL('./knowledge.json', import.meta.url),
    log: createLog('warn'),
    ...(values.data ? { dataFolder: values.data } : {}),
  });
  let allAnswered = true;
  try {
    for (const line of lines) {
      const act = await playLine(practice, line);
      if (!act) continue;
      if (act.error) allAnswered = false;
      console.log(values.json ? JSON.stringify(act) : inTerminal(act));
    }
    for (const breach of practice.room.contract.breaches()) {
      allAnswered = false;
      console.error(`refused by the contract: ${breach.method} ${breach.path}: ${breach.why}`);
    }
  } finally {
    await practice.close();
  }
  return allAnswered ? 0 : 1;
}

process.exit(await main());
