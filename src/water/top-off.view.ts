import { inFigures, shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { givenFigure, known, parameterOf } from './known.ts';
import { fromWords, SALT_BALANCE } from './standing.ts';
import type { TankWater } from './tank-water.ts';
import { counted, psu, span } from './words.ts';

export type TopOffFound = {
  /** How the litres were found. */
  by: 'measured' | 'salinity' | 'surface' | 'rule';
  topOffL: number;
  /** The span where it is an estimate, or where the meter may be off. */
  range: readonly [low: number, high: number] | null;
  /** Whether the litres are those of one day. */
  aDay: boolean;
  volumeL: number;
  salinityBefore: number;
  salinityAfter: number;
  /** Alkalinity a day if all of it were fresh, clear limewater; null where its strength is not known. */
  limewaterDkhADay: number | null;
  water: TankWater;
  byHand: readonly Markdown[];
  assumed: readonly Markdown[];
};

/** What evaporates, what that does to salinity, and what to fill up with. */
export function topOffView(base: KnowledgeBase, found: TopOffFound): Worked {
  const { by, topOffL, range, aDay, salinityBefore, salinityAfter, limewaterDkhADay, water } = found;
  const say = (litres: number) => inUnits(litres, 'volume', water.units);
  const [evaporation, alkalinity, ph] = [
    parameterOf(base, 'evaporation'),
    parameterOf(base, 'alkalinity'),
    parameterOf(base, 'ph'),
  ];
  const cap = givenFigure(parameterOf(base, 'salinity'), 'fallADay');
  const moved = salinityAfter - salinityBefore;
  const days = Math.max(1, Math.ceil(moved / cap.high));
  const stop = known(base, 'ph', 'limewater-stop');
  const rise = givenFigure(alkalinity, 'riseADay');
  return {
    audience: 'member',
    tone: days > 1 ? 'watch' : 'plain',
    answer: md`${say(topOffL)} of fresh water${aDay ? md` a day` : md``}${by === 'surface' || by === 'rule' ? md`, roughly` : md``}`,
    first: [
      by === 'salinity'
        ? md`That brings it from ${psu(salinityAfter)} back to ${psu(salinityBefore)}.`
        : md`Without it, salinity goes from ${psu(salinityBefore)} to ${psu(salinityAfter)}${aDay ? md` in a day` : md``}.`,
    ],
    days:
      days > 1
        ? [
            md`Pouring it all in at once would drop salinity by ${shortly(moved)}; ${span(cap)} a day is the cap with corals or invertebrates. Spread it over ${counted(days, 'day')}: ${say(topOffL / days)} a day, beside what goes off meanwhile.`,
          ]
        : [],
    assumed: found.assumed,
    byHand: found.byHand,
    ...(range ? { range: md`${say(range[0])} to ${say(range[1])}. ${RANGE_OF[by]}` } : {}),
    alsoChanges:
      aDay && limewaterDkhADay !== null
        ? [
            md`If all of it were limewater: about ${inFigures(limewaterDkhADay, 2)} dKH a day, and that is the most there is room for. ${limewaterDkhADay > rise.low ? md`**Where corals use up less, alkalinity must not rise by more than ${shortly(rise.low)} a day**: mix it with fresh water. ` : md``}Drip it slowly, and stop at pH ${stop.high}. It is caustic: gloves and glasses.`,
          ]
        : [],
    test: md`${evaporation.testing}`,
    cautions: [
      ...evaporation.mind.map((sentence) => md`- ${sentence}`),
      md`- An automatic top-off needs a second switch and a small reservoir, so that a stuck one cannot flood the tank with fresh water.`,
      md`- Unplug heater and pumps before you let the level drop below them.`,
    ],
    from: md`${fromWords(base, SALT_BALANCE, [cap, ...(by === 'rule' ? [known(base, 'evaporation', 'open-top')] : []), ...(by === 'surface' ? [known(base, 'evaporation', 'open-top-depth')] : []), ...(aDay ? [ph.target, stop] : [])])}`,
  };
}

const RANGE_OF: Readonly<Record<TopOffFound['by'], string>> = {
  measured: '',
  salinity: 'A meter is off by more than most tanks lose, so go by the water level where you can.',
  surface: 'Fans, light, covers and the season decide.',
  rule: 'That is a rule of thumb for open tanks. Mark the level and measure a day of your own.',
};
