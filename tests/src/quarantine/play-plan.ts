import { expect } from 'vitest';
import { asRead } from '../../../src/room/as-read.ts';
import { createRoomClock } from '../../../src/room/room-clock.ts';
import type { ActResult, SeenMessage } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';
import { actsActor, stillClock, type Presser } from './acts-actor.ts';

export const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
export const OPENED = new Date('2026-11-25T12:00:00Z');
const MOST_ACTS_A_LOOK = 15;

export type Reading = { value: string; form?: string };
export type Readings = Readonly<Record<string, Reading>>;
export type Given = Readonly<Record<string, string>>;
/** A line under "Today": what is due, and whether it is late. */
export type Due = { title: string; late: boolean; says: string };
export type Stage = Awaited<ReturnType<typeof openStage>>;

/** Members who do what the answers say and know nothing else; the acts are called without a connection. */
export function openActs() {
  const clock = stillClock(OPENED);
  return { clock, member: () => new Keeper(actsActor(clock), clock) };
}
export type Acts = ReturnType<typeof openActs>;

/** The same members in the practice room, with the whole bot between. */
export async function openStage() {
  const club = await openClub({ clock: createRoomClock(OPENED), settleMs: 1 });
  let members = 0;
  return {
    club,
    clock: club.room.clock,
    member: () => new Keeper(club.room.actor(`Nell ${(members += 1)}`), club.room.clock),
  };
}

/** One member, and the answer that they look at. */
export class Keeper {
  private readonly actor: Presser;
  private readonly clock: { now: () => Date; advance: (ms: number) => void };
  private shown: SeenMessage | undefined;
  private begunMs = 0;

  constructor(actor: Presser, clock: Keeper['clock']) {
    this.actor = actor;
    this.clock = clock;
  }

  /** `/quarantine verb option: value` and what it answers. */
  async says(verb: string, given: Given = {}): Promise<string> {
    const options = Object.entries(given).map(([name, value]) => ({ name, value }));
    return this.took(await this.actor.slash(`quarantine ${verb}`, options));
  }

  /** Presses a button of the answer that they look at, whatever else came in meanwhile. */
  async presses(label: string): Promise<string> {
    const button = this.buttons.find((each) => each.label === label);
    if (!this.shown || !button?.customId) throw new Error(`no button "${label}" on:\n${this.reads}`);
    return this.took(await this.actor.pressExactly(this.shown.id, button.customId));
  }

  async chooses(options: string[]): Promise<string> {
    const select = this.shown?.selects[0];
    if (!this.shown || !select) throw new Error(`nothing to choose from on:\n${this.reads}`);
    const values = select.options.filter(({ label }) => options.includes(label)).map(({ value }) => value);
    return this.took(await this.actor.chooseExactly(this.shown.id, select.customId, values));
  }

  get reads(): string {
    return asRead(this.shown?.text ?? '');
  }
  get marked(): string {
    return this.shown?.text ?? '';
  }
  get buttons() {
    return this.shown?.buttons ?? [];
  }

  /** Sends `/quarantine start` and says yes; gives back what was read before the yes. */
  async begins(given: Given): Promise<string> {
    const asked = await this.says('start', { zone: 'Europe/Lisbon', ...given });
    const yes = this.buttons.find(({ label }) => /^(Yes to all: start|Start)$/.test(label));
    if (!yes) throw new Error(`nothing to begin with on:\n${asked}`);
    await this.presses(yes.label);
    this.begunMs = this.clock.now().getTime();
    return asked;
  }

  /** Whole hours since the yes. */
  get hour(): number {
    return Math.floor((this.clock.now().getTime() - this.begunMs) / HOUR_MS);
  }

  /** Moves the clock on, and does what is due then. */
  async waits(hours: number, readings: Readings): Promise<Due[]> {
    this.clock.advance(hours * HOUR_MS);
    return this.looks(readings);
  }

  /** Asks what is due and does all of it; gives back what was asked for. */
  async looks(readings: Readings): Promise<Due[]> {
    const did: Due[] = [];
    let says = await this.says('today');
    for (;;) {
      const next = dueOn(says).find(({ title }) => !did.some((each) => each.title === title));
      if (!next) return did;
      did.push(next);
      if (did.length > MOST_ACTS_A_LOOK) throw new Error(`never done with:\n${says}`);
      says = await this.does(next, readings);
      if (dueOn(says).some(({ title }) => title === next.title))
        throw new Error(`hour ${this.hour}: "${next.title}" was done and is still asked for:\n${says}`);
    }
  }

  /** The one way that the answer offers: a button, or a reading that it names. */
  private async does({ title }: Due, readings: Readings): Promise<string> {
    if (title === 'Check in') return this.presses('All well');
    const button = this.buttons.find(({ label }) => label === `Done: ${title}`.slice(0, 80));
    if (button) return this.presses(button.label);
    const reading = /^Measure (.+)$/.exec(title)?.[1]?.toLowerCase();
    const read = reading === undefined ? undefined : readings[reading];
    if (reading !== undefined && read) return this.says('log', { reading, ...read });
    throw new Error(`hour ${this.hour}: nothing says how to do "${title}":\n${this.reads}`);
  }

  get isDone(): boolean {
    return this.reads.includes('All of it is done');
  }

  private took({ replies, error }: ActResult): string {
    expect(error).toBeUndefined();
    // Reminders are no answers: those are private messages in the channel.
    const answer = replies.findLast((each) => each.private);
    if (!answer) throw new Error('no answer');
    this.shown = answer;
    return this.reads;
  }
}

/** What an answer asks for today, late things first as they stand there. */
export function dueOn(says: string): Due[] {
  return says.split('\n').flatMap((line): Due[] => {
    const [, title, when, then] = /^- (.+?) \((due|overdue|planned)\b[^)]*\)\. ?(.*)$/.exec(line) ?? [];
    return title && when ? [{ title, late: when === 'overdue', says: then ?? '' }] : [];
  });
}

const PART = /^(- )?\*\*([^*]+)\*\*: /;
const REASON = / \((.+, )?(published|common practice|common practice, no source|cited from memory)\)$/;
/** What is done needs no reason, nor what has no date. */
const WITHOUT_REASON = /\*\*: (done |no dates yet)/;

/** Steps and holds of `/quarantine plan` without a reason and a standing. Turns of a run may share theirs. */
export function unfounded(marked: string): string[] {
  const bare: string[] = [];
  let open: { head: string; turn: boolean }[] = [];
  for (const line of [...marked.split('\n'), '**The end**: ']) {
    const [, dash, head] = PART.exec(line) ?? [];
    if (head) {
      const turn = dash !== undefined;
      if (!turn || open.some((each) => !each.turn)) {
        bare.push(...open.map((each) => each.head));
        open = [];
      }
      if (!WITHOUT_REASON.test(line) && !REASON.test(line)) open.push({ head, turn });
    } else if (line.startsWith('-# ') && REASON.test(line)) open = [];
  }
  return bare;
}

/** How many steps and holds `/quarantine plan` tells of. */
export const partsOn = (marked: string): number => marked.split('\n').filter((line) => PART.test(line)).length;

const MOMENT = String.raw`(\d+ \w+ \d{4}) at (\d\d:\d\d)`;

/** The instant that stands behind these words in an answer, as a member in London reads it in winter. */
export function dateAfter(words: string, says: string): Date {
  const escaped = words.replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
  const [, day, time] = new RegExp(`${escaped} ${MOMENT}`).exec(says) ?? [];
  if (!day || !time) throw new Error(`no date after "${words}" in:\n${says}`);
  return new Date(`${day} ${time} UTC`);
}

/** "Days without a sign: 12 of 30 days" as 12, from `/quarantine plan`. */
export function countedOf(hold: string, says: string): number {
  const counted = new RegExp(`${hold}: ([\\d.]+) of [\\d.]+ days? counted`).exec(says)?.[1];
  if (counted === undefined) throw new Error(`no count of "${hold}" in:\n${says}`);
  return Number(counted);
}

/** Local days from the start to "All of it is done, since 25 December 2026". */
export function dayDone(says: string, begun: Date): number {
  const since = /All of it is done, since (\d+ \w+ \d{4})/.exec(says)?.[1];
  if (since === undefined) throw new Error(`not done:\n${says}`);
  return (Date.parse(`${since} UTC`) - Date.parse(begun.toISOString().slice(0, 10))) / DAY_MS;
}
