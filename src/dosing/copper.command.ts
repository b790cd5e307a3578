import { z } from 'zod';
import { copperAfterChange, copperDose, type CopperForm } from '../../shared/copper.ts';
import { keptAnswer } from '../calculators/kept-answer.ts';
import { outOfRangeView } from '../calculators/out-of-range.view.ts';
import { quantityOptions, quantityShape, readQuantities } from '../calculators/quantity-option.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer } from '../discord/message-view.ts';
import { FORMS, furtherFigure } from '../knowledge/parameter.ts';
import { middle, parameterOf } from '../water/known.ts';
import { tankWater } from '../water/tank-water.ts';
import { copperView, formMissingView, labelRulesView, noCopperView, onlyQuarantineView } from './copper.view.ts';
import { OWNER_OPTIONS, OWNER_SHAPE, type DoseDeps } from './dose.command.ts';
import { suggestTank, whoseTank } from './whose-tank.ts';

const ASKED = {
  now: {
    description: 'What your copper test shows: "0 ppm", "0.12 mg/L"',
    required: true,
    quantity: 'concentration',
    species: 'Cu',
    most: 5,
    example: '0.12 mg/L',
  },
  target: {
    description: 'Ionic copper wanted. Left out: where keepers and papers aim',
    required: false,
    quantity: 'concentration',
    species: 'Cu',
    most: 5,
    example: '0.18 mg/L',
  },
  volume: {
    description: 'Net water with rock, sand and lime taken OUT: "80 L"',
    required: false,
    quantity: 'volume',
    least: 1,
  },
  change: { description: 'If you just changed water: how much of it, "25 %"', required: false, quantity: 'percent' },
  stock: { description: 'Your copper sulfate stock: "10 g/L"', required: false, quantity: 'strength' },
} as const;

/** `/dose copper`: ionic copper in a quarantine tank, in steps, with a test before each. */
export const copperCommand = (deps: DoseDeps): AnyCommand =>
  defineCommand({
    name: 'dose copper',
    description: 'Quarantine only, vet first: ionic copper up to its level, in steps with a test before each',
    options: [
      ...quantityOptions(ASKED).filter(({ required }) => required),
      {
        name: 'form',
        description: 'How your copper is bound; your test has to read that form',
        required: true,
        choices: FORMS,
      },
      ...quantityOptions(ASKED).filter(({ required }) => !required),
      ...OWNER_OPTIONS,
    ],
    input: z.object({ ...quantityShape(ASKED), form: z.string().max(20), ...OWNER_SHAPE }),
    run: (given, request): Answer => {
      const form = FORMS.find((each) => each === given.form);
      if (!form) return formMissingView();
      if (form !== 'ionic') return labelRulesView(parameterOf(deps.base, `copper-${form}`));
      const whose = whoseTank(deps, given, request);
      if (whose.kind === 'cannot') return whose.view;
      const { tank, units, forMember } = whose;
      const ionic = parameterOf(deps.base, 'copper-ionic');
      if (tank && tank.purpose !== 'quarantine') return onlyQuarantineView(tank);
      const read = readQuantities(ASKED, given, units);
      if (read.kind === 'problem') return read.view;
      const { values } = read;
      const water = tankWater(deps.base, { volume: values.volume }, tank, units);
      if (water.volumeL === null) throw new RangeError('a tank or a volume was made sure of, and neither is there');
      const aim = furtherFigure(ionic, 'aim');
      const targetMgPerL = values.target?.si ?? middle(aim);
      const setting = {
        form: form as CopperForm,
        volumeL: water.volumeL,
        targetMgPerL,
        mostMgPerL: ionic.target?.high ?? aim.high,
      };
      const before = values.now.si;
      const changeFraction = (values.change?.si ?? 0) / 100;
      const nowMgPerL = before * (1 - changeFraction);
      const additions = additionsFor(deps, targetMgPerL - nowMgPerL, targetMgPerL);
      const found = values.change
        ? copperAfterChange({ ...setting, additions, beforeMgPerL: before, changeFraction })
        : copperDose({ ...setting, additions, nowMgPerL: before });
      switch (found.kind) {
        case 'out-of-range':
          return outOfRangeView(found, units);
        case 'form-missing':
          return formMissingView();
        case 'label-rules':
          return labelRulesView(parameterOf(deps.base, `copper-${found.form}`));
        case 'not-needed':
        case 'cannot-lower':
          return noCopperView(ionic, found, targetMgPerL);
        case 'copper': {
          const assumed = [
            ...read.echo,
            md`form: ionic`,
            ...(values.target ? [] : [md`target: ${targetMgPerL} mg/L, ${aim.says}; you gave none`]),
            ...water.lines.volume,
            ...(tank
              ? []
              : [md`a quarantine tank without invertebrates, rock, sand and lime: you gave no tank, so I cannot know`]),
          ];
          const worked = copperView(deps.base, {
            found,
            volumeL: water.volumeL,
            units,
            assumed,
            stockGPerL: values.stock?.si ?? null,
            targetMgPerL,
            audience: forMember ? 'everyone' : 'member',
            ionic,
          });
          if ('blocks' in worked) return worked;
          const title = `copper to ${targetMgPerL} mg/L${tank ? `, ${tank.name}` : ''}`;
          // Copper goes by the test and not by the calendar, so there is nothing to be reminded of daily.
          return keptAnswer(
            deps.answers,
            request,
            { ...worked, ...(forMember ? { forMember } : {}) },
            { title, doses: [] },
          );
        }
      }
    },
    suggest: (option, typed, request, so = {}) => (option === 'tank' ? suggestTank(deps, typed, request, so) : []),
  });

/** As many steps as the build-up from nothing takes, in proportion to the way that is left. */
function additionsFor({ base }: DoseDeps, rise: number, target: number): number {
  const { low, high } = furtherFigure(parameterOf(base, 'copper-ionic'), 'additions');
  const whole = Math.round((low + high) / 2);
  return rise > 0 && target > 0 ? Math.min(high, Math.max(1, Math.ceil((whole * rise) / target - 1e-9))) : 1;
}
