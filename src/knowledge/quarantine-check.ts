import type { CompiledKnowledge } from './knowledge-base.ts';
import type { LinkProblem } from './knowledge-check.ts';

type FileOf = (kind: string, id: string) => string;

/** Every source that entries of quarantine cite. */
export function quarantineSources({ fish, lifeCycles, plans, remedies, signs }: CompiledKnowledge) {
  const present = (ids: readonly (string | undefined)[]) => ids.filter((id) => id !== undefined);
  return [
    ...fish.map(({ id, sources }) => ({ kind: 'fish', id, cited: sources })),
    ...lifeCycles.map(({ id, rows }) => ({ kind: 'life-cycle', id, cited: rows.map(({ source }) => source) })),
    ...remedies.map(({ id, source }) => ({ kind: 'remedy', id, cited: [source] })),
    ...signs.map(({ id, fits }) => ({ kind: 'sign', id, cited: fits.map(({ source }) => source) })),
    ...plans.map(({ id, sources, steps, holds, rules }) => ({
      kind: 'plan',
      id,
      cited: [...sources, ...present([...steps, ...holds, ...rules].map(({ source }) => source))],
    })),
  ];
}

/** Links between plans, life cycles, signs, fish and first aid all lead somewhere. */
export function quarantineHoldsTogether(knowledge: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const { plans, lifeCycles, signs, fish, remedies, critters, firstAid, parameters } = knowledge;
  const known = {
    plan: new Set(plans.map(({ id }) => id)),
    lifeCycle: new Set(lifeCycles.map(({ id }) => id)),
    critter: new Set(critters.map(({ id }) => id)),
    firstAid: new Set(firstAid.map(({ id }) => id)),
    parameter: new Set(parameters.map(({ id }) => id)),
  };
  const complain = (kind: string, id: string, path: string, came: string, expected: string): LinkProblem => ({
    file: fileOf(kind, id),
    path: [path],
    message: `came "${came}", expected ${expected}`,
  });
  const helps = (kind: string, id: string, rows: readonly string[]) =>
    rows
      .filter((row) => !known.firstAid.has(row))
      .map((row) => complain(kind, id, 'firstAid', row, 'a row of knowledge/first-aid'));
  return [
    ...fish.flatMap((each) => helps('fish', each.id, each.firstAid)),
    ...remedies.flatMap((each) => helps('remedy', each.id, each.firstAid)),
    ...signs.flatMap(({ id, fits }) => [
      ...fits.flatMap((fit) => helps('sign', id, fit.firstAid)),
      ...fits.flatMap(({ critter }) =>
        critter === undefined || known.critter.has(critter)
          ? []
          : [complain('sign', id, 'fits', critter, 'the id of a critter')],
      ),
    ]),
    ...plans.flatMap((plan) => [...helps('plan', plan.id, plan.firstAid), ...planLinks(plan, known, complain)]),
  ];
}

type Known = Readonly<Record<'plan' | 'lifeCycle' | 'parameter', ReadonlySet<string>>>;
type Complain = (kind: string, id: string, path: string, came: string, expected: string) => LinkProblem;

function planLinks(plan: CompiledKnowledge['plans'][number], known: Known, complain: Complain): LinkProblem[] {
  const { id, steps, holds, rules, options, then } = plan;
  const [stepIds, holdIds, optionIds] = [steps, holds, options].map((list) => new Set(list.map((each) => each.id)));
  const curves = [
    ...steps.flatMap(({ earliestBy, latestBy }) => [earliestBy, latestBy]),
    ...holds.map(({ daysBy }) => daysBy),
  ];
  return [
    ...(then === undefined || known.plan.has(then) ? [] : [complain('plan', id, 'then', then, 'the id of a plan')]),
    ...curves.flatMap((curve) =>
      curve === undefined || known.lifeCycle.has(curve.lifeCycle)
        ? []
        : [complain('plan', id, 'steps', curve.lifeCycle, 'the id of a life cycle')],
    ),
    ...rules.flatMap(({ hold }) =>
      holdIds?.has(hold) ? [] : [complain('plan', id, 'rules', hold, 'the id of a hold of this plan')],
    ),
    ...[...steps, ...holds].flatMap(({ from, option }) => [
      ...(typeof from === 'object' && 'step' in from && !stepIds?.has(from.step)
        ? [complain('plan', id, 'from', from.step, 'the id of a step of this plan')]
        : []),
      ...(typeof from === 'object' && 'hold' in from && !holdIds?.has(from.hold)
        ? [complain('plan', id, 'from', from.hold, 'the id of a hold of this plan')]
        : []),
      ...(option === undefined || optionIds?.has(option)
        ? []
        : [complain('plan', id, 'option', option, 'the id of an option of this plan')]),
    ]),
    ...holds.flatMap(({ range }) =>
      range === undefined || known.parameter.has(range.parameter)
        ? []
        : [complain('plan', id, 'holds', range.parameter, 'the id of a parameter')],
    ),
  ];
}
