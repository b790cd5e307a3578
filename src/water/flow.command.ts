import { z } from 'zod';
import { pumpForTurnover, turnover } from '../../shared/turnover.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { optionsOf, shapeOf, suggestTank, VOLUME, withWater, type WaterDeps } from './asked.ts';
import { cannotView, outOfRangeView } from './asked.view.ts';
import { flowView } from './flow.view.ts';
import { known, middle } from './known.ts';

const ASKED = {
  pump: {
    description: 'Rated flow of all pumps together: "3000 L/h", "800 gph"',
    required: false,
    quantity: 'flow',
    least: 1,
    most: 10_000_000,
  },
  loss: {
    description: 'What height and pipes take of the rated flow: "30%"',
    required: false,
    quantity: 'percent',
    least: 0,
    most: 95,
    example: '30%',
  },
  volume: VOLUME,
} as const;
const LEAST_TIMES = 1;
const MOST_TIMES = 200;
const EXAMPLE = md`**/water flow** pump: 3000 L/h volume: 300 L`;

/** `/water flow`: turnover of a pump, or the pump for a turnover. */
export function flowCommand(deps: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water flow',
    description: 'How often your pumps turn the tank over, or which pump you need',
    options: optionsOf(ASKED, [
      {
        kind: 'whole-number',
        name: 'times',
        description: 'Tank volumes an hour that you want: 20. Answers with the pump for it',
        required: false,
        least: LEAST_TIMES,
        most: MOST_TIMES,
      },
    ]),
    input: z.object({ ...shapeOf(ASKED), times: z.int().min(LEAST_TIMES).max(MOST_TIMES).optional() }),
    suggest: suggestTank(deps),
    run: (given, request) => {
      const { times } = given;
      if (given.pump === undefined && times === undefined)
        return cannotView('Pump or turnover?', [
          md`Give **pump:** with its rated flow, and I say how often it turns the tank over; or **times:**, and I say which pump does.`,
          md`For example: ${EXAMPLE}`,
        ]);
      return withWater(deps, ASKED, given, request, ({ pump, loss }, { water, echo }) => {
        const volumeL = water.volumeL ?? 0;
        const usual = known(deps.base, 'flow', 'lost-to-head');
        const lost = (loss?.si ?? middle(usual)) / 100;
        const at = (headLossFraction: number) =>
          pump
            ? turnover({ ratedLPerH: pump.si, headLossFraction, volumeL })
            : pumpForTurnover({ turnoverPerH: times ?? 1, headLossFraction, volumeL });
        const [found, low, high] = [at(lost), at(usual.low / 100), at(usual.high / 100)];
        if (found.kind === 'out-of-range') return outOfRangeView(found, EXAMPLE);
        if (low.kind === 'out-of-range') return outOfRangeView(low, EXAMPLE);
        if (high.kind === 'out-of-range') return outOfRangeView(high, EXAMPLE);
        const ends = [low, high].map((end) => (end.kind === 'turnover' ? end.turnoverPerH : end.ratedLPerH));
        return flowView(deps.base, {
          asked: found.kind,
          ratedLPerH: found.kind === 'pump' ? found.ratedLPerH : (pump?.si ?? 0),
          deliveredLPerH: found.deliveredLPerH,
          turnoverPerH: found.kind === 'turnover' ? found.turnoverPerH : (times ?? 0),
          loss: lost,
          range: loss ? null : [Math.min(...ends), Math.max(...ends)],
          water,
          volumeL,
          assumed: [
            ...echo,
            ...water.lines.volume,
            ...(loss ? [] : [md`lost to height and pipes: ${middle(usual)}%, **assumed**`]),
          ],
        });
      });
    },
  });
}
