import { Temporal } from 'temporal-polyfill';
import { joined, md, type Block, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Sign } from '../knowledge/sign.ts';
import { localDays } from './fold-days.ts';
import type { Alarm, Because, DueItem, HoldState, PlanState } from './plan-state.ts';
import type { Quarantine } from './quarantine.ts';
import { labelInWords } from './start-words.ts';

/** An instant that Discord writes in the reader's own time. */
export const moment = (at: Date, style: 'f' | 'D' | 'R' | 't' = 'f'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});
export const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

/** "1 day", "3 days", "6 searches". */
export const counted = (count: number, one: string): string =>
  `${count} ${count === 1 ? one : `${one.replace(/(ch|sh|s|x)$/, '$1e')}s`}`;

/** "two clownfish · Observation, day 12"; the local date of the start is day 1. */
export function headOf({ animals, begunAt, zone }: Quarantine, plan: Plan, now: Date): Markdown {
  const { dayOf } = localDays(zone);
  return md`${animals} · ${plan.name}, day ${Math.max(1, dayOf(now) - dayOf(begunAt) + 1)}`;
}

/** The same, counted from when the clock began. */
export const headSince = (quarantine: Quarantine, plan: Plan, { startedAt }: PlanState, now: Date): Markdown =>
  headOf({ ...quarantine, begunAt: startedAt ?? quarantine.begunAt }, plan, now);

const ALARM_WORDS = { emergency: 'Now.', urgent: 'Act today.', soon: 'Soon.', watch: 'Watch.' } as const;

/** What cannot wait, the worst first. */
export const alarmWords = ({ says, at, urgency }: Alarm): Markdown =>
  md`**${ALARM_WORDS[urgency]}** ${ended(says)} *${moment(at, 'R')}*`;

const NO_ENTRY: Readonly<Record<string, string>> = {
  'pest-seen': 'A pest or its eggs were seen.',
  'fish-seen': 'A fish was seen in a tank that should have none.',
};

/** What was seen, by the name that its entry has. */
export const signName = (signs: ReadonlyMap<string, Sign>, id: string): string =>
  signs.get(id)?.name ?? NO_ENTRY[id]?.replace(/\.$/, '') ?? id.replaceAll('-', ' ');

/** Alarms of signs name their sign by its id; here they get its name and what to do first. */
export function alarmsInWords(signs: ReadonlyMap<string, Sign>, alarms: readonly Alarm[]): Alarm[] {
  return alarms.map((alarm) => {
    if (alarm.says !== alarm.about) return alarm;
    const name = ended(signName(signs, alarm.about));
    const first = signs.get(alarm.about)?.fits.find(({ urgency }) => urgency === alarm.urgency)?.first;
    return { ...alarm, says: first === undefined ? name : `${name} Do first: ${first}` };
  });
}

const READINGS: Readonly<Record<string, string>> = { ph: 'pH' };

/** What the label of a bound copper names, where the plan goes by it. */
export const labelWords = ({ copperLabel }: Quarantine, { holds }: Plan): Markdown | null =>
  copperLabel && holds.some(({ range }) => range?.limits === 'label')
    ? md`**By the label:** ${labelInWords(copperLabel)} of copper. Readings in this range count; above it is an emergency.`
    : null;

/** Who decides on medicines; where none is at hand, nobody is told. */
export const notADoctor = ({ for: whom }: Plan): string =>
  whom === 'fish' ? 'I keep dates; a fish vet decides on medicines.' : 'I keep dates.';

const HOURS_A_DAY = 24;

/** How often somebody has to look and check in: "A look each day counts"; null where the plan asks for none. */
export function lookWords({ monitors }: Plan): string | null {
  const every = monitors.filter(({ what }) => what === 'check-in').map(({ everyH }) => everyH);
  if (every.length === 0) return null;
  const days = Math.round(Math.min(...every) / HOURS_A_DAY);
  return days <= 1 ? 'a look each day' : days === 7 ? 'a look once a week' : `a look every ${days} days`;
}

/** "Check in", "Measure copper", or the title of the step. */
export function dueTitle({ kind, id, title }: DueItem): string {
  if (kind === 'check-in') return 'Check in';
  return kind === 'reading' ? `Measure ${READINGS[id] ?? id}` : title;
}

/** When the whole may end. */
export function endWords({ endsEarliest, completed, holds }: PlanState): Markdown {
  if (completed) return md`**All of it is done**, since ${moment(completed, 'D')}. **/quarantine finish** closes it.`;
  if (holds.some(({ reached, needed }) => reached === null && needed === null))
    return md`**No end can be given:** nobody has studied this at the temperature of this tank. Ask a vet.`;
  return endsEarliest
    ? md`**Earliest end, if all goes well from now: ${moment(endsEarliest, 'D')}**, ${moment(endsEarliest, 'R')}.`
    : md`**The end has no date yet:** it waits for what has to come first.`;
}

/** That another option counts than the one that was chosen, and why; null where it is the chosen one. */
export function optionWords({ option }: Pick<Quarantine, 'option'>, plan: Plan, state: PlanState): Markdown | null {
  const chosen = plan.options.find(({ id }) => id === option);
  const counts = plan.options.find(({ id }) => id === state.option);
  if (!chosen || !counts || chosen === counts || state.startedAt === null) return null;
  const leastC = chosen.leastC ?? chosen.leastMeanC;
  const why = leastC === undefined ? '' : ` It needs the temperature noted, and ${leastC} °C or more.`;
  return md`**“${counts.name}” counts**, not “${chosen.name}”, as things stand.${why}`;
}

const CELLS = 10;

/** Ten cells; the last one is filled only when all is there. */
export function bar(part: number, whole: number): string {
  const filled = whole > 0 ? Math.floor(Math.min(1, Math.max(0, part / whole)) * CELLS + 1e-9) : 0;
  return '▓'.repeat(filled) + '░'.repeat(CELLS - filled);
}

/** How far a hold is: "▓▓▓▓░░░░░░ Days without a sign: 12 of 30"; null where its days are not known. */
export function holdProgress({ name, counted: days, needed, reached }: HoldState): Markdown | null {
  if (needed === null) return null;
  if (reached) return md`${bar(1, 1)} ${name}: all ${daysOf(needed)} are there`;
  return md`${bar(days, needed)} ${name}: ${figure(days)} of ${daysOf(needed)}`;
}

export const figure = (days: number): string => String(Math.floor(days * 10) / 10);
export const daysOf = (days: number): string => `${figure(days)} ${days === 1 ? 'day' : 'days'}`;

const STANDING = {
  published: 'published',
  'common-practice': 'common practice, no source',
  'from-memory': 'cited from memory',
} as const;

/** How far a figure can be trusted: "Hadfield 2011, published". */
export function standingWords(
  { sources }: Pick<KnowledgeBase, 'sources'>,
  { standing, source }: { standing: Because['standing']; source?: string | undefined },
): string {
  const cited = source === undefined ? undefined : sources.get(source);
  // "No source" beside a source would be a contradiction.
  const how = cited && standing === 'common-practice' ? 'common practice' : STANDING[standing];
  return cited ? `${cited.short}, ${how}` : how;
}

/** Why a date is that date, in small print. */
export const becauseWords = (base: Pick<KnowledgeBase, 'sources'>, because: Because): Markdown =>
  joined([
    md`-# ${[datesInWords(because.reason), because.why].filter(Boolean).join(' ')} (${standingWords(base, because)})`,
  ]);

const DAY_WORDS = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', timeZone: 'UTC' });

/** "2026-12-14" as "14 December", wherever it stands. */
export const datesInWords = (words: string): string =>
  words.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (date) =>
    DAY_WORDS.format(Temporal.PlainDate.from(date).toZonedDateTime('UTC').epochMilliseconds),
  );

/** With a full stop at its end, and one only. */
export const ended = (sentence: string): string => (/[.!?]["”]?$/.test(sentence) ? sentence : `${sentence}.`);
/** With a capital letter at its beginning. */
export const begun = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);
