import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Figure, Parameter } from '../knowledge/parameter.ts';
import { standingOf } from './figure-words.ts';
import { judge, type Judgement } from './judge.ts';
import { valueIn } from './measured.ts';
import type { NextTest } from './next-test.ts';
import { nextTestInWords, spanInWords } from './shown-in-words.ts';
import type { Tank } from './tank.ts';

/** The sea that limits and targets are meant for. */
const USUAL_SALINITY = 35;

/** A moment as each member reads it in their own time. */
export const moment = (at: Date, style: 'f' | 'D' | 'R' = 'f'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});

/** When to test again and why; a test that is overdue says so by how long ago it was due. */
export const nextTestLine = (parameter: Parameter, next: NextTest, { units }: Tank): Markdown =>
  md`Next test ${moment(next.at, 'D')}, ${moment(next.at, 'R')}: ${nextTestInWords(parameter, next, units)}.`;

/** How a reading stands to the limits, with what is said of them and how far to trust it. */
export function judgementLine(
  base: KnowledgeBase,
  parameter: Parameter,
  judgement: Judgement,
  tank: Tank,
): Markdown | null {
  if (judgement.kind === 'no-limits') return null;
  const { figure } = judgement;
  const from = md`-# ${standingOf(figure, base)}${quarantine(parameter, tank)}`;
  const note = figure.note ? md` ${figure.note}` : md``;
  switch (judgement.kind) {
    case 'urgent':
    case 'warn': {
      const limit = valueIn(parameter, judgement.side === 'below' ? figure.high : figure.low, tank.units);
      const head = judgement.kind === 'urgent' ? 'Urgent' : 'Outside the limits';
      // No dose lowers anything, so what can is said where it is too high.
      const todo = judgement.side === 'above' ? parameter.lowering : parameter.testing;
      return md`**${head}: ${judgement.side} ${limit}.**${note} ${todo}\n${from}`;
    }
    case 'in-target':
      return md`Within what keepers aim for, ${span(parameter, figure, tank)}.\n${from}`;
    case 'off-target':
      return md`Keepers aim for ${span(parameter, figure, tank)}; nothing alarming.\n${from}`;
  }
}

const span = (parameter: Parameter, { low, high }: Figure, { units }: Tank): string =>
  low === high
    ? valueIn(parameter, low, units)
    : spanInWords(valueIn(parameter, low, units), valueIn(parameter, high, units));

const quarantine = ({ form }: Parameter, { purpose }: Tank): string =>
  purpose === 'quarantine' && !form ? '; a limit for reef tanks, a treatment can mean to be outside of it' : '';

/**
 * What to put right first: parameters that rise and fall with salinity say nothing while that is off. Null where it does not
 * matter, or is right.
 */
export function salinityFirstLine(
  base: KnowledgeBase,
  parameter: Parameter,
  value: number,
  tank: Tank,
): Markdown | null {
  const salinity = base.parameters.get('salinity');
  if (!salinity || !parameter.after.includes(salinity.id)) return null;
  if (tank.practicalSalinity === null)
    return md`**Measure salinity too:** ${parameter.name.toLowerCase()} rises and falls with it, so correct that before you judge this.`;
  const judged = judge(salinity, tank.practicalSalinity);
  if (judged.kind === 'in-target' || judged.kind === 'no-limits') return null;
  const at35 = valueIn(parameter, (value * USUAL_SALINITY) / tank.practicalSalinity, tank.units);
  return md`**Correct salinity first.** It reads ${valueIn(salinity, tank.practicalSalinity, tank.units)}. At ${valueIn(salinity, USUAL_SALINITY, tank.units)} this would be ${at35}; judge that, and do not dose before.`;
}
