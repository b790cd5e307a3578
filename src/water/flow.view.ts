import { shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { known, parameterOf } from './known.ts';
import { fromWords } from './standing.ts';
import type { TankWater } from './tank-water.ts';
import { percent, span } from './words.ts';

type Ends = readonly [least: number, most: number];

export type FlowFound = {
  asked: 'turnover' | 'pump';
  ratedLPerH: number;
  deliveredLPerH: number;
  turnoverPerH: number;
  loss: number;
  /** The answer at the smallest and the largest usual loss; null when the member gave the loss. */
  range: Ends | null;
  water: TankWater;
  volumeL: number;
  assumed: readonly Markdown[];
};

/** How often a pump turns the tank over, or which pump does so. */
export function flowView(base: KnowledgeBase, found: FlowFound): Worked {
  const { asked, ratedLPerH, deliveredLPerH, turnoverPerH, loss, range, water, volumeL, assumed } = found;
  const flow = parameterOf(base, 'flow');
  const say = (litresPerH: number) => inUnits(litresPerH, 'flow', water.units);
  const usual = ['mixed-reef', 'small-polyp', 'sump-return'].map((key) => known(base, 'flow', key));
  return {
    audience: 'member',
    answer:
      asked === 'turnover'
        ? md`${shortly(turnoverPerH)} tank volumes an hour`
        : md`A pump rated at ${say(ratedLPerH)}, for ${shortly(turnoverPerH)} tank volumes an hour`,
    first: [md`Usual: ${usual.map((figure) => `${figure.says} ${span(figure)}`).join('; ')} volumes an hour.`],
    assumed,
    byHand: [
      asked === 'turnover'
        ? md`${shortly(ratedLPerH)} L/h × (1 − ${shortly(loss)}) = ${shortly(deliveredLPerH)} L/h; ÷ ${shortly(volumeL)} L = ${shortly(turnoverPerH)} an hour`
        : md`${shortly(turnoverPerH)} × ${shortly(volumeL)} L = ${shortly(deliveredLPerH)} L/h; ÷ (1 − ${shortly(loss)}) = ${shortly(ratedLPerH)} L/h`,
    ],
    ...(range
      ? {
          range:
            asked === 'turnover'
              ? md`${shortly(range[0])} to ${shortly(range[1])} volumes an hour, as height and pipes take ${span(known(base, 'flow', 'lost-to-head'))}%.`
              : md`${say(range[0])} to ${say(range[1])}, as height and pipes take ${span(known(base, 'flow', 'lost-to-head'))}%.`,
        }
      : {}),
    test: md`${flow.testing}`,
    cautions: [
      ...flow.mind.map((sentence) => md`- ${sentence}`),
      md`- Unplug a pump before you reach into the water for it, and leave a drip loop in the cable.`,
    ],
    from: md`${fromWords(base, `Rated flow less ${percent(loss)}, over the net volume.`, [...usual, known(base, 'flow', 'lost-to-head')])}`,
  };
}
