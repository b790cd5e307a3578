import type { MemberRole, MemberSpec, TypedOptions } from './room.ts';

/** One line of a script, understood. */
export type ScriptAct =
  | { kind: 'member'; spec: MemberSpec }
  | { kind: 'slash' | 'types'; who: string; command: string; options: TypedOptions }
  | { kind: 'press'; who: string; label: string }
  | { kind: 'choose'; who: string; select: string; options: string[] }
  | { kind: 'fill'; who: string; fields: Record<string, string> }
  | { kind: 'says'; who: string; text: string }
  | { kind: 'menu'; who: string; entry: string }
  | { kind: 'clock'; advanceMs: number }
  | { kind: 'clock'; setTo: Date }
  | { kind: 'restart' };

/** A line that cannot be understood; the message says what was expected. */
export class ScriptError extends Error {}

/** Option names that the room's commands have, so that a colon inside a value is left alone. */
export type KnownOptions = ReadonlySet<string>;

/**
 * Reads one act. Empty lines and lines that begin with `#` give null.
 *
 * @throws ScriptError when the line fits none of the acts.
 */
export function readAct(line: string, known: KnownOptions): ScriptAct | null {
  const text = line.trim();
  if (text === '' || text.startsWith('#')) return null;
  if (text === 'restart') return { kind: 'restart' };
  const [word = '', ...rest] = text.split(/\s+/);
  if (word === 'member') return readMember(rest);
  if (word === 'clock') return readClock(rest.join(' '));
  const said = /^@([\p{L}\p{N}_.-]+)\s+(.*)$/su.exec(text);
  if (!said) throw new ScriptError(`came "${shown(text)}", expected @NAME and an act, member, clock or restart`);
  const [, who = '', act = ''] = said;
  if (who.toLowerCase() === 'bot')
    throw new ScriptError('came an act of @bot, expected a member; the bot acts by itself');
  return readMemberAct(who, act, known);
}

function readMemberAct(who: string, act: string, known: KnownOptions): ScriptAct {
  if (act.startsWith('/')) return { kind: 'slash', who, ...readCommand(act, known) };
  const [, verb = '', rest = ''] = /^(\S+)\s*(.*)$/s.exec(act) ?? [];
  switch (verb) {
    case 'types':
      return { kind: 'types', who, ...readCommand(rest, known) };
    case 'press':
      return { kind: 'press', who, label: rest };
    case 'says':
      return { kind: 'says', who, text: rest };
    case 'menu':
      return { kind: 'menu', who, entry: rest };
    case 'choose': {
      const [select = '', options] = splitOnce(rest, '=');
      if (options === undefined)
        throw new ScriptError(`came "choose ${shown(rest)}", expected: choose LABEL = option, option`);
      return { kind: 'choose', who, select, options: options.split(',').map((option) => option.trim()) };
    }
    case 'fill':
      return { kind: 'fill', who, fields: readFields(rest) };
    default:
      throw new ScriptError(
        `came the act "${shown(verb)}", expected /COMMAND, types, press, choose, fill, says or menu`,
      );
  }
}

/** `/critter name critter:bristle worm` → the command and its options; a value runs to the next ` option:`. */
function readCommand(text: string, known: KnownOptions): { command: string; options: TypedOptions } {
  const options: TypedOptions = [];
  const starts = [...text.matchAll(/(?<=\s)([a-z][a-z0-9_-]{0,31}):/g)].filter(
    ({ 1: name }, at) => known.has(name ?? '') || at === 0,
  );
  const command = text
    .slice(0, starts[0]?.index ?? text.length)
    .trim()
    .replace(/^\//, '');
  starts.forEach((start, at) => {
    const from = start.index + start[0].length;
    options.push({ name: start[1] ?? '', value: text.slice(from, starts[at + 1]?.index ?? text.length).trim() });
  });
  return { command, options };
}

function readFields(text: string): Record<string, string> {
  return Object.fromEntries(
    text.split(';').map((pair) => {
      const [label = '', value] = splitOnce(pair, '=');
      if (value === undefined)
        throw new ScriptError(`came "fill ${shown(pair)}", expected: fill LABEL = text; LABEL = text`);
      return [label, value];
    }),
  );
}

function splitOnce(text: string, at: string): [string, string | undefined] {
  const index = text.indexOf(at);
  return index < 0 ? [text.trim(), undefined] : [text.slice(0, index).trim(), text.slice(index + 1).trim()];
}

function readMember([name, ...words]: string[]): ScriptAct {
  if (!name)
    throw new ScriptError(
      'came "member" alone, expected: member NAME [curator] [officer] [dm-closed] [zone=Area/City] [locale=xx]',
    );
  const roles: MemberRole[] = [];
  const spec: MemberSpec = { name: name.replace(/^@/, ''), roles };
  if (!/^[\p{L}\p{N}_.-]{1,32}$/u.test(spec.name) || spec.name.toLowerCase() === 'bot')
    throw new ScriptError(`came the name "${shown(spec.name)}", expected letters and figures, and not "bot"`);
  for (const word of words) {
    const [key, value] = splitOnce(word, '=');
    if (key === 'curator' || key === 'officer') roles.push(key);
    else if (key === 'dm-closed') spec.dmClosed = true;
    else if (key === 'zone' && value) spec.zone = knownZone(value);
    else if (key === 'locale' && value) spec.locale = value;
    else
      throw new ScriptError(
        `came "${shown(word)}" after member ${name}, expected curator, officer, dm-closed, zone=Area/City or locale=xx`,
      );
  }
  return { kind: 'member', spec };
}

function knownZone(zone: string): string {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return zone;
  } catch {
    throw new ScriptError(`came the zone "${shown(zone)}", expected an IANA zone such as Europe/Lisbon`);
  }
}

/** No practice needs more than ten years at a time. */
const LONGEST_STEP_MS = 3_660 * 86_400_000;
const UNITS = { s: 1_000, m: 60_000, h: 3_600_000, d: 86_400_000, w: 604_800_000 } as const;

function readClock(text: string): ScriptAct {
  if (text.startsWith('+')) {
    const parts = [...text.slice(1).matchAll(/(\d+(?:\.\d+)?)([smhdw])/g)];
    if (parts.length > 0 && parts.map(([whole]) => whole).join('') === text.slice(1).replace(/\s/g, ''))
      return { kind: 'clock', advanceMs: atMost(LONGEST_STEP_MS, stepMs(parts)) };
  } else {
    const setTo = new Date(text);
    if (/^\d{4}-\d\d-\d\dT/.test(text) && !Number.isNaN(setTo.getTime())) return { kind: 'clock', setTo };
  }
  throw new ScriptError(
    `came "clock ${shown(text)}", expected a step such as +3d or +1h30m, or an instant such as 2026-12-01T19:00Z`,
  );
}

const stepMs = (parts: readonly RegExpMatchArray[]) =>
  parts.reduce((sum, [, amount, unit]) => sum + Number(amount) * UNITS[unit as keyof typeof UNITS], 0);

function atMost(most: number, ms: number): number {
  if (ms > most) throw new ScriptError('came a step of more than ten years, expected a shorter one');
  return ms;
}

const shown = (text: string) => (text.length > 60 ? `${text.slice(0, 59)}…` : text);
