import { limewaterStrength, LIMEWATER_ERROR, type LimewaterNeed } from '../../shared/limewater.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { MEQ_PER_L_PER_DKH } from '../../shared/units/alkalinity.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { furtherFigure } from '../knowledge/parameter.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { parameterOf } from '../water/known.ts';
import { fromWords } from '../water/standing.ts';
import { percent } from '../water/words.ts';

export type LimewaterAsked = {
  volumeL: number;
  useDkhPerDay: number;
  evaporationLPerDay: number | undefined;
  temperatureC: number;
  saturation: number;
  units: TankUnits;
  assumed: readonly Markdown[];
  audience: Worked['audience'];
};

/** Where calcium hydroxide is described: its hazards travel with every answer. */
const REAGENT = 'calcium-hydroxide';

export function limewaterView(base: KnowledgeBase, asked: LimewaterAsked, need: LimewaterNeed): Worked {
  const { units, volumeL, useDkhPerDay, temperatureC, saturation, audience, assumed, evaporationLPerDay } = asked;
  const reagent = base.reagents.get(REAGENT);
  if (!reagent) throw new RangeError(`knowledge/reagents/${REAGENT}.yaml is missing`);
  const litres = (value: number) => inUnits(value, 'volume', units);
  const alkalinity = (dkh: number) => inUnits(dkh, 'alkalinity', units);
  const strength = limewaterStrength({ temperatureC, saturation });
  const meqPerL = strength.kind === 'limewater' ? strength.alkalinityMeqPerL : 0;
  const meq = volumeL * useDkhPerDay * MEQ_PER_L_PER_DKH;
  const ph = parameterOf(base, 'ph');
  const stop = furtherFigure(ph, 'limewater-stop');
  return {
    audience,
    tone: 'watch',
    answer: md`${litres(need.limewaterLPerDay)} of limewater a day`,
    first: need.limitedByEvaporation
      ? [
          md`**Evaporation sets the limit.** The tank would need ${litres(need.wantedLPerDay)} a day, and only ${litres(need.limewaterLPerDay)} evaporates. That covers ${alkalinity(need.coversDkhPerDay)} a day; the other ${alkalinity(need.leftDkhPerDay)} has to come from something else, such as **/dose alkalinity** with **/dose calcium**.`,
        ]
      : evaporationLPerDay === undefined
        ? [md`**Never more than evaporates.** Measure what one day takes and send **evaporation:** along.`]
        : [],
    days: [
      md`Every day, as a slow drip, mostly at night: ${inUnits(need.hydroxideGPerDay, 'mass', units)} of the powder goes into it.`,
    ],
    assumed,
    byHand: [
      md`${shortly(useDkhPerDay)} dKH × ${inFigures(MEQ_PER_L_PER_DKH, 4)} × ${shortly(volumeL, 4)} L = ${inFigures(meq, 3)} meq a day`,
      md`${inFigures(meq, 3)} meq ÷ ${inFigures(meqPerL, 3)} meq in a litre of limewater = ${shortly(need.wantedLPerDay)} L`,
    ],
    range: md`${litres(need.wantedSpanLPerDay[0])} to ${litres(need.wantedSpanLPerDay[1])}: published strengths of limewater differ by ${percent(LIMEWATER_ERROR)}, and stored limewater grows weaker.`,
    alsoChanges: [
      md`calcium +${inUnits(need.calciumMgPerLPerDay, 'concentration', units)} a day, in the proportion in which corals use it; pH up sharply.`,
    ],
    test: md`Test pH and alkalinity daily in the first week, in the morning and in the evening. Stop at pH ${stop.high}.`,
    cautions: [
      md`- **You:** ${reagent.hazard} ${reagent.protect}`,
      md`- **Dissolve:** ${reagent.making}`,
      ...(reagent.mind ? [md`- ${reagent.mind}`] : []),
    ],
    from: md`${fromWords(base, 'Strength of saturated limewater: Bates, Bower & Smith 1956 at 25 °C, the slope by a handbook table.', [stop])}`,
    buttons: reagent.firstAid
      .slice(0, 1)
      .map((row) => ({ label: 'First aid', act: 'aid', args: [row], style: 'danger' as const })),
  };
}
