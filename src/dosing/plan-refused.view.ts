import type { JointPlanInput, JointPlanOutcome, Planned } from '../../shared/joint-plan-model.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { cannotView } from '../water/asked.view.ts';
import { parameterOf } from '../water/known.ts';
import { risingOf } from './plan-input.ts';
import { reagentsRaising } from './plan-reagents.ts';
import { listed, lower, valueOf } from './plan-words.ts';
import type { AskedPlan } from './plan.view.ts';

type Base = Pick<KnowledgeBase, 'parameters' | 'reagents'>;
type NoPlan = Exclude<JointPlanOutcome, { kind: 'plan' | 'out-of-range' }>;

/** Nothing to plan, or no plan that could help: said in private. */
export function noPlanView(base: Base, { input, units, reagents }: AskedPlan, outcome: NoPlan): MessageView {
  switch (outcome.kind) {
    case 'nothing-to-do':
      return cannotView('Nothing to add', [md`All you gave me is where you want it.`, ...EXAMPLE]);
    case 'cannot-lower':
      return cannotView('No dose brings a value down', [
        ...outcome.values.map(({ planned, now, target }) => {
          const { name, lowering } = parameterOf(base, planned);
          return md`**${name}** is ${valueOf(planned, now, units)} and you want ${valueOf(planned, target, units)}. ${lowering}`;
        }),
        md`-# Did you write it the wrong way round? First what your test shows, then where you want it.`,
      ]);
    case 'cannot-reach':
      return outcome.why === 'no-reagent'
        ? cannotView('Something is missing from your list', [
            ...outcome.values.map((planned) => {
              const names = reagentsRaising(base, [planned]).map(({ name }) => lower(name));
              return md`Nothing that you have raises **${planned}**. This would: ${names.join('; ')}.`;
            }),
            md`You have: ${listed(reagents.map(({ name }) => lower(name)))}.`,
          ])
        : cannotView('These targets cannot all be met with what you have', [
            ...outcome.values.map(
              ({ planned, target, endsAt }) =>
                md`**${parameterOf(base, planned).name}** would end at ${valueOf(planned, endsAt, units)} instead of ${valueOf(planned, target, units)}.`,
            ),
            ...conflictHelp(
              base,
              input,
              outcome.values.map(({ planned }) => planned),
            ),
          ]);
    case 'not-solved':
      return cannotView('I could not work that out in time', [
        md`Nothing was changed. Send it once more, or ask for one value at a time, such as **/dose alkalinity**.`,
        md`-# ${outcome.reason}`,
      ]);
  }
}

/** Reagents that raise what has to rise and leave alone what would go too far. */
function conflictHelp(base: Base, input: JointPlanInput, over: readonly Planned[]): Markdown[] {
  const rising = risingOf(input);
  if (rising.includes('salinity'))
    return [md`Salt mix brings all of them along. Raise salinity first, test again, and plan the rest then.`];
  return rising
    .filter((planned) => !over.includes(planned))
    .flatMap((planned) => {
      const harmless = reagentsRaising(base, [planned]).filter(({ raises }) =>
        over.every((one) => !raises.some((raised) => raised === one)),
      );
      return harmless.length > 0
        ? [md`For ${planned} alone there is: ${harmless.map(({ name }) => lower(name)).join('; ')}.`]
        : [];
    });
}

const EXAMPLE = [md`For example **alkalinity: 7.2 to 8.5 dKH** and **calcium: 380 to 420**.`];
export const nothingAskedView = (): MessageView =>
  cannotView('What shall the plan raise?', [
    md`Give me at least one of **alkalinity**, **calcium**, **magnesium** and **salinity**: what your test shows, and where you want it.`,
    ...EXAMPLE,
  ]);
