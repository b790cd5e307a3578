import { z } from 'zod';
import { afterEvaporation, evaporationADay, topOffForRise } from '../../shared/evaporation.ts';
import { limewaterEffect } from '../../shared/limewater.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import { optionsOf, SALINITY, shapeOf, suggestTank, TEMPERATURE, VOLUME, withWater, type WaterDeps } from './asked.ts';
import { cannotView, outOfRangeView } from './asked.view.ts';
import { givenFigure, known, middle, parameterOf } from './known.ts';
import { spanOf, type TankWater } from './tank-water.ts';
import { topOffView, type TopOffFound } from './top-off.view.ts';
import { psu, span } from './words.ts';

const CM2_PER_M2 = 10_000;
const ASKED = {
  lost: {
    description: 'What goes off in a day, if you measured it: "6 L"',
    required: false,
    quantity: 'volume',
    least: 0.01,
  },
  now: { description: 'Salinity now, after it rose: "36.2 ppt"', required: false, quantity: 'salinity' },
  salinity: { ...SALINITY, description: 'Salinity it should have, when full: "35 ppt"' },
  length: {
    description: 'Length of the water surface: "120 cm"',
    required: false,
    quantity: 'length',
    least: 1,
    most: 5000,
  },
  width: {
    description: 'Width of the water surface: "50 cm"',
    required: false,
    quantity: 'length',
    least: 1,
    most: 5000,
  },
  volume: VOLUME,
  temperature: TEMPERATURE,
} as const;
const EXAMPLE = md`**/water top-off** lost: 6 L volume: 250 L`;

/** `/water top-off`: what evaporates, and the fresh water that makes up for it. */
export function topOffCommand(deps: WaterDeps): AnyCommand {
  return defineCommand({
    name: 'water top-off',
    description: 'Fresh water to make up for evaporation, what it does to salinity, and the limewater limit',
    options: optionsOf(ASKED),
    input: z.object(shapeOf(ASKED)),
    suggest: suggestTank(deps),
    run: (given, request) =>
      withWater(deps, ASKED, given, request, ({ lost, now, length, width }, { water, echo }): Worked | MessageView => {
        const volumeL = water.volumeL ?? 0;
        const assumed = [...echo, ...water.lines.volume, ...water.lines.salinity, ...water.lines.temperature];
        if (now) return fromReading(deps, now.si, water, volumeL, assumed);
        if ((length === undefined) !== (width === undefined))
          return cannotView('Length and width', [
            md`The surface takes both **length:** and **width:**. Or give **lost:**, what a day takes.`,
            md`For example: ${EXAMPLE}`,
          ]);
        const surfaceM2 = length && width ? (length.si * width.si) / CM2_PER_M2 : null;
        const day = lost ? { litres: lost.si, by: 'measured' as const } : estimate(deps, surfaceM2, volumeL);
        const after = afterEvaporation({
          volumeL,
          evaporatedL: day.litres,
          salinityBefore: water.practicalSalinity,
          temperatureC: water.temperatureC,
        });
        if (after.kind === 'out-of-range') return outOfRangeView(after, EXAMPLE);
        if (after.kind === 'dry')
          return cannotView('More than the tank holds', [
            md`It cannot lose ${shortly(day.litres)} L of ${shortly(volumeL)} L. One of the numbers is off.`,
            md`For example: ${EXAMPLE}`,
          ]);
        const effect = limewaterEffect({ volumeL, limewaterLPerDay: day.litres, temperatureC: water.temperatureC });
        return topOffView(deps.base, {
          by: day.by,
          topOffL: after.topOffL,
          range: 'range' in day ? day.range : null,
          aDay: true,
          volumeL,
          salinityBefore: water.practicalSalinity,
          salinityAfter: after.salinity,
          limewaterDkhADay: effect.kind === 'effect' ? effect.alkalinityDkhPerDay : null,
          water,
          byHand: [
            ...('byHand' in day ? [day.byHand] : []),
            md`${psu(water.practicalSalinity)} × ${shortly(volumeL)} ÷ (${shortly(volumeL)} − ${shortly(day.litres)}) = ${psu(after.roughSalinity)}, by mass ${psu(after.salinity)}`,
          ],
          assumed,
        });
      }),
  });
}

type Estimate = { litres: number; by: 'surface' | 'rule'; range: readonly [number, number]; byHand: Markdown };

/** What an open tank loses by its surface, or where nobody gave one, by its volume. */
function estimate({ base }: WaterDeps, surfaceM2: number | null, volumeL: number): Estimate {
  if (surfaceM2 !== null) {
    const depth = known(base, 'evaporation', 'open-top-depth');
    const at = (mmPerDay: number) => {
      const found = evaporationADay({ surfaceM2, mmPerDay });
      return found.kind === 'a-day' ? found.evaporatedLPerDay : 0;
    };
    return {
      litres: at(middle(depth)),
      by: 'surface',
      range: [at(depth.low), at(depth.high)],
      byHand: md`${inFigures(surfaceM2)} m² × ${shortly(middle(depth))} mm (${span(depth)} is usual) = ${inFigures(at(middle(depth)))} L a day`,
    };
  }
  const share = known(base, 'evaporation', 'open-top');
  const at = (percent: number) => (volumeL * percent) / 100;
  return {
    litres: at(middle(share)),
    by: 'rule',
    range: [at(share.low), at(share.high)],
    byHand: md`${shortly(volumeL)} L × ${shortly(middle(share))}% (${span(share)}% is usual) = ${inFigures(at(middle(share)))} L a day`,
  };
}

function fromReading(
  { base }: WaterDeps,
  now: number,
  water: TankWater,
  volumeL: number,
  assumed: TopOffFound['assumed'],
): Worked | MessageView {
  const input = { volumeL, salinityBefore: water.practicalSalinity, temperatureC: water.temperatureC };
  const found = topOffForRise({ ...input, salinityAfter: now });
  if (found.kind === 'out-of-range') return outOfRangeView(found, EXAMPLE);
  if (found.kind === 'not-risen')
    return cannotView('It has not risen', [
      md`You read ${psu(now)}, and full it should be at ${psu(water.practicalSalinity)}. Fresh water would lower it further.`,
      md`To raise it, use **/water salinity**. To say what it should be, add **salinity:**.`,
    ]);
  const error = givenFigure(parameterOf(base, 'salinity'), 'kitError').low;
  const ends = [now - error, now + error].map((salinityAfter) => {
    const end = topOffForRise({ ...input, salinityAfter });
    return end.kind === 'top-off' ? end.topOffL : 0;
  });
  return topOffView(base, {
    by: 'salinity',
    topOffL: found.topOffL,
    range: spanOf(found.topOffL, ends, water),
    aDay: false,
    volumeL,
    salinityBefore: water.practicalSalinity,
    salinityAfter: now,
    limewaterDkhADay: null,
    water,
    byHand: [
      md`Roughly ${shortly(volumeL)} L × (1 − ${psu(water.practicalSalinity)} ÷ ${psu(now)}) = ${inFigures(volumeL * (1 - water.practicalSalinity / now))} L; by mass ${inFigures(found.topOffL)} L`,
    ],
    assumed,
  });
}
