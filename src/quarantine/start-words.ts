import { readQuantity } from '../../shared/quantity-text.ts';
import { daysAfter, localDate, occurrenceOn, timeOfDayIn } from '../schedule/local-time.ts';
import { readWhen } from '../tanks/when.ts';
import { dateAfter, readEvery } from '../upkeep/every.ts';
import type { CopperLabel } from './quarantine.ts';

const DAY_MS = 86_400_000;
/** What began earlier than this is written down from memory at best. Common practice, no source. */
export const MOST_DAYS_AGO = 60;

export type Began = { kind: 'at'; at: Date } | { kind: 'unreadable' } | { kind: 'ahead' } | { kind: 'long-ago' };

/** When animals began to wait, in a keeper's words: "yesterday 18:00", "3 days ago", "Saturday", "2026-11-20", in their zone. */
export function readBegan(text: string, now: Date, zone: string): Began {
  const typed = text.normalize('NFKC').trim().toLowerCase().replace(/\s+/g, ' ');
  const at = momentIn(typed, now, zone);
  if (at === null) return { kind: 'unreadable' };
  if (at.getTime() > now.getTime()) return { kind: 'ahead' };
  return now.getTime() - at.getTime() > MOST_DAYS_AGO * DAY_MS ? { kind: 'long-ago' } : { kind: 'at', at };
}

const NOON = '12:00';
/** "Saturday 18:30", "2026-11-20", "today at 7 pm": a day, and a time where one is given. */
const DAY_AND_TIME = /^(\d{4}-\d{2}-\d{2}|[a-z]+)(?:,? (?:at )?(.+))?$/;
const PARTS: Readonly<Record<string, string>> = {
  morning: '09:00',
  afternoon: '15:00',
  evening: '19:00',
  night: '21:00',
};

function momentIn(typed: string, now: Date, zone: string): Date | null {
  const relative = /^(?:(?:this|today) )?(morning|afternoon|evening)$/.exec(typed)?.[1];
  if (typed === 'last night') return on(-1, '21:00', now, zone);
  if (relative !== undefined) return on(0, PARTS[relative] ?? NOON, now, zone);
  const agoOrDate = readWhen(typed, now);
  const isDate = /^\d{4}-/.test(typed);
  if (!isDate && agoOrDate.kind === 'at') return agoOrDate.at;
  const time = timeOfDayIn(typed.replace(/^at /, ''));
  if (time !== null) return on(0, time, now, zone);
  const [, day = '', clock] = DAY_AND_TIME.exec(typed.replace(/^(?:on|since|last) /, '')) ?? [];
  const timeOfDay = clock === undefined ? null : (PARTS[clock] ?? timeOfDayIn(clock));
  if (clock !== undefined && timeOfDay === null) return null;
  const today = localDate(now, zone);
  const date = isDate ? (agoOrDate.kind === 'unreadable' ? null : day) : dateNamed(day, today);
  if (date === null) return null;
  const at = occurrenceOn({ timeOfDay: timeOfDay ?? NOON, zone }, date).at;
  // A day alone that is today stands for now when its noon is still to come.
  return date === today && timeOfDay === null && at > now ? now : at;
}

const on = (days: number, timeOfDay: string, now: Date, zone: string): Date =>
  occurrenceOn({ timeOfDay, zone }, daysAfter(localDate(now, zone), days)).at;

function dateNamed(day: string, today: string): string | null {
  if (day === 'today') return today;
  if (day === 'yesterday') return daysAfter(today, -1);
  const every = readEvery(day);
  if (every?.kind !== 'weekdays' || every.weekdays.length !== 1) return null;
  // The last such day, today included.
  return dateAfter(every, daysAfter(today, -7));
}

export type ReadLabel =
  | { kind: 'label'; label: CopperLabel }
  | { kind: 'trouble'; why: 'form' | 'ionic' | 'range' | 'figures' | 'order'; came: string };

/** No compound for aquaria names figures outside of these, in mg/L of copper. Common practice, no source. */
const LEAST_LABEL = 0.05;
const MOST_LABEL = 5;
const RANGE = /(\d+(?:[.,]\d+)?)\s*([a-z/%µ]*)\s*(?:-|–|—|\bto\b|\band\b)\s*(\d+(?:[.,]\d+)?)\s*(.*)$/i;

/** What a label of a bound copper says: "chelated 1.5-2.0 mg/L". */
export function readLabel(text: string, form?: CopperLabel['form']): ReadLabel {
  const typed = text.normalize('NFKC').trim().toLowerCase();
  const trouble = (why: Extract<ReadLabel, { kind: 'trouble' }>['why']): ReadLabel => ({
    kind: 'trouble',
    why,
    came: text.slice(0, 60),
  });
  if (/\bionic\b|\bsul(?:f|ph)ate\b/.test(typed)) return trouble('ionic');
  const said = /\bchelat/.test(typed) ? 'chelated' : /\bamine\b/.test(typed) ? 'amine' : form;
  if (said === undefined) return trouble('form');
  const found = RANGE.exec(typed);
  if (!found) return trouble('range');
  const unit = (found[4] ?? '').replace(/\b(?:of )?(?:copper|cu)\b|[().]/g, '').trim() || (found[2] ?? '');
  const figure = (amount: string) =>
    readQuantity(`${amount} ${unit}`.trim(), {
      quantity: 'concentration',
      species: 'Cu',
      least: LEAST_LABEL,
      most: MOST_LABEL,
    });
  const [low, high] = [figure(found[1] ?? ''), figure(found[3] ?? '')];
  if (low.kind !== 'read' || high.kind !== 'read') return trouble('figures');
  if (low.si >= high.si) return trouble('order');
  return { kind: 'label', label: { form: said, low: low.si, high: high.si } };
}

/** As it is typed again, and as it stands in a sentence. */
export const labelInWords = ({ form, low, high }: CopperLabel): string =>
  `${form} ${Number(low.toPrecision(4))}–${Number(high.toPrecision(4))} mg/L`;
