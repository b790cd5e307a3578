import { z } from 'zod';
import { AMMONIA_UNITS, unionisedAmmonia } from '../../shared/ammonia.ts';
import type { ReadQuantity } from '../../shared/quantity-text.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import { ammoniaView } from './ammonia.view.ts';
import { optionsOf, SALINITY, shapeOf, suggestTank, TEMPERATURE, withWater, type WaterDeps } from './asked.ts';
import { outOfRangeView } from './asked.view.ts';
import { givenFigure, parameterOf } from './known.ts';

const ASKED = {
  total: {
    description: 'All ammonia as your kit shows it: "0.5 ppm", "0.5 NH4"',
    required: true,
    quantity: 'concentration',
    species: 'NH3-N',
    example: '0.5 ppm NH3-N',
  },
  ph: { description: 'pH of the tank now: "8.2"', required: true, quantity: 'ph', least: 6, most: 9.5 },
  temperature: TEMPERATURE,
  // The formula ends a little below the saltiest sea.
  salinity: { ...SALINITY, most: 40 },
} as const;

const EXAMPLE = md`**/water ammonia** total: 0.5 ppm ph: 8.2 temperature: 26 C salinity: 35 ppt`;

/** `/water ammonia`: how much of what a kit shows is the part that poisons, and what to do about it. */
export function ammoniaCommand(deps: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water ammonia',
    description: 'How much of the ammonia is the free part that poisons fish, and what to do now',
    options: optionsOf(ASKED, [
      {
        name: 'kit',
        description: 'What your kit counts; it stands in its leaflet. Left out: NH3-N, the careful reading',
        required: false,
        choices: AMMONIA_UNITS,
      },
    ]),
    input: z.object({ ...shapeOf(ASKED), kit: z.enum(AMMONIA_UNITS).optional() }),
    suggest: suggestTank(deps),
    run: (given, request) =>
      withWater(
        deps,
        ASKED,
        given,
        request,
        ({ total, ph }, { water, echo }) => {
          // A unit that was written with the number counts; the option speaks where none was.
          const unit = saysNoSpecies(total) ? (given.kit ?? 'NH3-N') : 'NH3-N';
          const input = { totalMgPerL: total.si, unit, ...water };
          const at = (value: number) => unionisedAmmonia({ ...input, ph: value });
          const phError = givenFigure(parameterOf(deps.base, 'ph'), 'kitError').high;
          const [found, low, high] = [at(ph.si), at(ph.si - phError), at(ph.si + phError)];
          if (found.kind === 'out-of-range') return outOfRangeView(found, EXAMPLE);
          if (low.kind === 'out-of-range') return outOfRangeView(low, EXAMPLE);
          if (high.kind === 'out-of-range') return outOfRangeView(high, EXAMPLE);
          return ammoniaView(deps.base, {
            found,
            range: [low.nh3MgPerL, high.nh3MgPerL],
            ph: ph.si,
            phError,
            assumed: [
              totalLine(total, given.kit),
              ...echo.slice(1),
              ...water.lines.temperature,
              ...water.lines.salinity,
            ],
            ammonia: parameterOf(deps.base, 'ammonia'),
          });
        },
        'no-volume',
      ),
  });
}

const saysNoSpecies = ({ notes }: ReadQuantity): boolean =>
  notes.includes('ammonia-as-nitrogen') || notes.includes('unit-assumed');

function totalLine(total: ReadQuantity, kit: (typeof AMMONIA_UNITS)[number] | undefined): Markdown {
  if (!saysNoSpecies(total)) return md`total: ${total.understood}`;
  return kit
    ? md`total: ${total.amount} mg/L, counted as ${kit}`
    : md`total: ${total.amount} mg/L, counted as NH3-N, **assumed**; a kit may count NH3 or NH4, then it is less`;
}
