import type { LightStep } from '../../shared/light-ramp.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { workedView } from '../calculators/worked.view.ts';
import { md, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { known, parameterOf } from './known.ts';
import { STEP_DAYS, type RampRules } from './light.ts';
import { fromWords } from './standing.ts';
import { counted, percent, span } from './words.ts';

const PAR = 'µmol/m²/s';
const DLI = 'mol/m²/day';

const enoughWords = ({ enough, experienced }: RampRules) =>
  md`About ${enough.high} is enough even for stony corals that like high light. ${span(experienced)} is for experienced keepers only, with corals that live at such light already.`;

export type RampFound = {
  steps: readonly LightStep[];
  days: number;
  risePar: number;
  startPar: number;
  targetPar: number;
  capPar: number;
  rules: RampRules;
  assumed: readonly Markdown[];
};

/** A light ramp: what to set in which week, what bleaching looks like, and the way back. */
export function rampView(base: KnowledgeBase, found: RampFound): MessageView {
  const { steps, days, risePar, startPar, targetPar, capPar, rules, assumed } = found;
  const { enough, experienced, step } = rules;
  const light = parameterOf(base, 'light');
  const above = targetPar > enough.high;
  return workedView({
    audience: 'member',
    tone: above ? 'watch' : 'plain',
    answer: md`${shortly(startPar)} to ${shortly(targetPar)} ${PAR} in ${counted(steps.length, 'weekly step')}`,
    first: [
      above
        ? md`**${shortly(targetPar)} is more than corals need.** ${enoughWords(rules)}`
        : md`${enoughWords(rules)} Soft and large-polyp corals want much less.`,
    ],
    days: steps.map(
      ({ day, par, lampShare }, at) =>
        md`- Week ${at + 1}, ${day === 0 ? 'today' : `after ${day} days`}: **${shortly(par)}** ${PAR}${lampShare === null ? '' : `, lamp at ${percent(lampShare)}`}`,
    ),
    picture: chart(found),
    assumed,
    byHand: [
      md`(${shortly(targetPar)} − ${shortly(startPar)}) ÷ ${steps.length} = ${shortly(risePar)} a week; the most is ${step.high}% of ${shortly(targetPar)} = ${shortly(capPar)}`,
    ],
    test: md`${light.testing}`,
    cautions: [
      ...light.mind.map((sentence) => md`- ${sentence}`),
      md`- The way back: ${light.lowering}`,
      md`- The last step comes on day ${days}. Skip a step whenever a coral looks worse than the week before.`,
    ],
    from: md`${fromWords(base, 'Equal steps.', [step, enough, experienced])} The signs and the way back are common practice, no source.`,
  });
}

/** The chart, whose drawing code is loaded when it is wanted. */
function chart({ steps, targetPar, rules }: RampFound): Extract<Block, { kind: 'picture' }> {
  return {
    kind: 'picture',
    name: 'light-ramp.png',
    draw: async () => {
      const { drawnChart, lightRampChart } = await import('../drawing/charts/charts.ts');
      return drawnChart(
        lightRampChart({
          steps: steps.map(({ day, par }) => ({ fromDay: day + 1, toDay: day + STEP_DAYS, par })),
          target: targetPar,
          enough: rules.enough.high,
          cautionFrom: rules.experienced.low,
        }),
      );
    },
  };
}

export type DailyFound = {
  asked: 'daily-light' | 'par';
  parUmol: number;
  dailyLightMol: number;
  equivalentH: number;
  /** How the hours add up: "8 + (2 + 2) ÷ 2". */
  hours: string;
  assumed: readonly Markdown[];
};

/** The light of a whole day, or the brightness that brings it. */
export function dailyView(base: KnowledgeBase, found: DailyFound): MessageView {
  const { asked, parUmol, dailyLightMol, equivalentH, hours, assumed } = found;
  const light = parameterOf(base, 'light');
  const enough = known(base, 'light', 'enough');
  const laboratory = ['daily-dose-limiting', 'daily-dose-high'].map((key) => known(base, 'light', key));
  return workedView({
    audience: 'member',
    tone: parUmol > enough.high ? 'watch' : 'plain',
    answer:
      asked === 'daily-light'
        ? md`${shortly(dailyLightMol)} ${DLI} (daily light)`
        : md`${shortly(parUmol)} ${PAR} at the brightest, for ${shortly(dailyLightMol)} ${DLI}`,
    first: [
      ...(parUmol > enough.high
        ? [md`**That is bright.** About ${enough.high} ${PAR} is enough even for stony corals that like high light.`]
        : []),
      ...laboratory.map((figure) => md`${shortly(figure.high)} ${DLI}: ${figure.says}.`),
    ],
    assumed,
    byHand: [
      md`Hours at full light: ${hours === shortly(equivalentH) ? hours : `${hours} = ${shortly(equivalentH)}`}`,
      asked === 'daily-light'
        ? md`${shortly(parUmol)} × ${shortly(equivalentH)} h × 0.0036 = ${inFigures(dailyLightMol)}`
        : md`${shortly(dailyLightMol)} ÷ (${shortly(equivalentH)} h × 0.0036) = ${inFigures(parUmol)}`,
    ],
    test: md`${light.testing}`,
    cautions: [md`- To go up, use weekly steps: add **target:** and I work them out.`, md`- ${light.lowering}`],
    from: md`${fromWords(base, 'Definition of the daily light integral; straight ramps count half, a half sine 2/π.', [enough, ...laboratory])}`,
  });
}
