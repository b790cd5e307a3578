import type { UnionisedAmmonia } from '../../shared/ammonia.ts';
import { inFigures } from '../../shared/units/figures.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { furtherFigure, type Parameter } from '../knowledge/parameter.ts';
import { percent } from './words.ts';
import { fromWords } from './standing.ts';

export type AmmoniaFound = {
  found: UnionisedAmmonia;
  /** The same with a pH read too low and too high. */
  range: readonly [low: number, high: number];
  ph: number;
  phError: number;
  assumed: readonly Markdown[];
  ammonia: Parameter;
};

export type AmmoniaAlarm = 'act' | 'stay' | 'warn' | 'none';

/** The one rule for ammonia, whose figures stand in the knowledge base: a value on the line counts as over it. */
export function ammoniaAlarm(parameter: Parameter, nh3MgPerL: number): AmmoniaAlarm {
  const { warnAbove, urgentAbove } = parameter;
  if (urgentAbove && nh3MgPerL >= urgentAbove.low) return 'act';
  if (nh3MgPerL >= furtherFigure(parameter, 'stay-level').low) return 'stay';
  return warnAbove && nh3MgPerL >= warnAbove.low ? 'warn' : 'none';
}

const TONES = { act: 'urgent', stay: 'urgent', warn: 'watch', none: 'calm' } as const;
const NEARLY_NONE = 0.001;
const shown = (mgPerL: number) => (mgPerL < NEARLY_NONE ? 'less than 0.001' : inFigures(mgPerL, 2));

/** Free ammonia, what it asks for, and first help where it is high. */
export function ammoniaView(base: KnowledgeBase, answer: AmmoniaFound): Worked {
  const { found, range, ph, phError, assumed, ammonia } = answer;
  const alarm = ammoniaAlarm(ammonia, found.nh3MgPerL);
  const highest = ammoniaAlarm(ammonia, range[1]);
  const worse = highest !== alarm && highest !== 'none';
  return {
    audience: 'member',
    // A reading that may be dangerous is no reason to be calm.
    tone: TONES[alarm === 'none' && worse ? 'warn' : alarm],
    answer: md`${shown(found.nh3MgPerL)} mg/L free ammonia (NH3): ${HEADS[alarm]}`,
    first: firstWords(alarm, ammonia),
    assumed,
    byHand: [
      md`Free share = 1 ÷ (1 + 10^(${found.pKa.toFixed(2)} − ${ph})) = ${percent(found.share)}`,
      md`${inFigures(found.totalNMgPerL, 2)} mg/L nitrogen × ${percent(found.share)} × 17.031 ÷ 14.007 = ${shown(found.nh3MgPerL)} mg/L NH3`,
    ],
    range: md`${shown(range[0])} to ${shown(range[1])} mg/L, if the pH is off by ${phError}.${worse ? md` **At the upper end: ${HEADS[highest]}.**` : md``}`,
    test: md`${ammonia.testing}`,
    cautions: ammonia.mind.map((sentence) => md`- ${sentence}`),
    from: md`${fromWords(base, 'Free share: US EPA 1989, sea water, for a pH meter set with ordinary buffers or a colour kit. It reads a few per cent high, which is the safe side.', [ammonia.warnAbove, furtherFigure(ammonia, 'stay-level')])}`,
  };
}

const HEADS: Readonly<Record<AmmoniaAlarm, string>> = {
  act: 'act now',
  stay: 'too high to stay',
  warn: 'watch it closely',
  none: 'no alarm',
};

function firstWords(alarm: AmmoniaAlarm, ammonia: Parameter): Markdown[] {
  const { warnAbove, urgentAbove, lowering } = ammonia;
  const [stayHours, stay] = [furtherFigure(ammonia, 'longest-stay').high, furtherFigure(ammonia, 'stay-level').low];
  const rule = md`The rule: watch from ${warnAbove?.low ?? stay}, act from ${urgentAbove?.low ?? stay}, and never longer than ${stayHours} hours at ${stay} mg/L or more.`;
  switch (alarm) {
    case 'act':
      return [
        md`**This harms fish now.** ${lowering}`,
        md`Fish that gasp, lie down or roll over: clean matched water and air first, then find a vet.`,
        rule,
      ];
    case 'stay':
      return [md`**At most ${stayHours} hours like this, better less.** ${lowering}`, rule];
    case 'warn':
      return [md`**Do not wait for it to rise.** Feed less, test again today, and have matched water ready.`, rule];
    case 'none':
      return [md`A fish that gasps is an emergency all the same: test again, and add air.`, rule];
  }
}
