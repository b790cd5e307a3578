import type { CompiledKnowledge } from './knowledge-base.ts';
import type { LinkProblem } from './knowledge-check.ts';

type FileOf = (kind: string, id: string) => string;

/** Every source that entries of quarantine cite. */
export function quarantineSources({ fish, lifeCycles, plans, purposes, remedies, signs }: CompiledKnowledge) {
  const present = (ids: readonly (string | undefined)[]) => ids.filter((id) => id !== undefined);
  return [
    ...fish.map(({ id, sources }) => ({ kind: 'fish', id, cited: sources })),
    ...lifeCycles.map(({ id, rows }) => ({ kind: 'life-cycle', id, cited: rows.map(({ source }) => source) })),
    ...remedies.map(({ id, source }) => ({ kind: 'remedy', id, cited: [source] })),
    ...signs.map(({ id, fits }) => ({ kind: 'sign', id, cited: fits.map(({ source }) => source) })),
    ...purposes.map(({ id, plans: rows }) => ({ kind: 'purpose', id, cited: present(rows.map(({ source }) => source)) })),
    ...plans.map(({ id, sources, steps, runs, holds, rules, limits }) => ({
      kind: 'plan',
      id,
      cited: [...sources, ...present([...steps, ...runs, ...holds, ...rules, ...limits].map(({ source }) => source))],
    })),
  ];
}

/** Links between plans, life cycles, signs, fish and first aid all lead somewhere. */
export function quarantineHoldsTogether(knowledge: CompiledKnowledge, fileOf: FileOf): LinkProblem[] {
  const { plans, purposes, lifeCycles, signs, fish, remedies, critters, firstAid, parameters } = knowledge;
  const known = {
    plan: new Set(plans.map(({ id }) => id)),
    sign: new Set(signs.map(({ id }) => id)),
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
    ...signs.flatMap(({ id, fits, answers }) => [
      ...fits.flatMap((fit) => helps('sign', id, fit.firstAid)),
      ...fits.flatMap(({ critter }) =>
        critter === undefined || known.critter.has(critter)
          ? []
          : [complain('sign', id, 'fits', critter, 'the id of a critter')],
      ),
      ...fits.flatMap(({ plan }) =>
        plan === undefined || known.plan.has(plan) ? [] : [complain('sign', id, 'fits', plan, 'the id of a plan')],
      ),
      ...answers.flatMap(({ insteadSee }) =>
        insteadSee
          .filter((other) => other === id || !known.sign.has(other))
          .map((other) => complain('sign', id, 'answers', other, 'the id of another sign')),
      ),
    ]),
    ...purposes.flatMap(({ id, plans: rows }) =>
      rows
        .filter(({ plan }) => !known.plan.has(plan))
        .map(({ plan }) => complain('purpose', id, 'plans', plan, 'the id of a plan')),
    ),
    ...purposes.flatMap((purpose) =>
      purpose.signs
        .filter((sign) => !signs.some(({ id }) => id === sign))
        .map((sign) => complain('purpose', purpose.id, 'signs', sign, 'the id of a sign')),
    ),
    ...plans.flatMap((plan) => [...helps('plan', plan.id, plan.firstAid), ...planLinks(plan, known, complain)]),
  ];
}

type Known = Readonly<Record<'plan' | 'sign' | 'lifeCycle' | 'parameter', ReadonlySet<string>>>;
type Complain = (kind: string, id: string, path: string, came: string, expected: string) => LinkProblem;

function planLinks(plan: CompiledKnowledge['plans'][number], known: Known, complain: Complain): LinkProblem[] {
  const { id, steps, runs, holds, rules, options, monitors, limits, then } = plan;
  const idsOf = (list: readonly { id: string }[]) => new Set(list.map((each) => each.id));
  const own = { step: idsOf(steps), hold: idsOf(holds), run: idsOf(runs), option: idsOf(options) };
  const expectOwn = (kind: keyof typeof own, path: string, came: string | undefined) =>
    came === undefined || own[kind].has(came)
      ? []
      : [complain('plan', id, path, came, `the id of one of this plan's ${kind}s`)];
  const curves = [
    ...steps.flatMap(({ earliestBy, latestBy }) => [earliestBy, latestBy]),
    ...holds.map(({ daysBy }) => daysBy),
  ];
  return [
    ...(then === undefined || known.plan.has(then) ? [] : [complain('plan', id, 'then', then, 'the id of a plan')]),
    ...curves.flatMap((curve) =>
      curve === undefined || known.lifeCycle.has(curve.lifeCycle)
        ? []
        : [complain('plan', id, 'holds', curve.lifeCycle, 'the id of a life cycle')],
    ),
    ...rules.flatMap(({ of }) => (own.run.has(of) ? [] : expectOwn('hold', 'rules', of))),
    ...[...steps, ...runs, ...holds].flatMap(({ from, option }) => [
      ...expectOwn('option', 'option', option),
      ...(from === 'start' ? [] : 'holds' in from
          ? from.holds.flatMap((to) => expectOwn('hold', 'from', to))
          : Object.entries(from).flatMap(([kind, to]) => expectOwn(kind as 'step', 'from', to))),
    ]),
    ...runs.flatMap(({ untilHold }) => expectOwn('hold', 'runs', untilHold)),
    ...options.flatMap(({ lapses }) => [
      ...expectOwn('step', 'options', lapses?.step),
      ...expectOwn('hold', 'options', lapses?.hold),
    ]),
    ...limits.flatMap(({ during }) => expectOwn('hold', 'limits', during?.hold)),
    ...monitors.flatMap(({ step, during, untilStep }) => [
      ...expectOwn('step', 'monitors', step),
      ...expectOwn('step', 'monitors', untilStep),
      ...expectOwn('hold', 'monitors', during?.hold),
    ]),
    ...holds.flatMap(({ range, ifSignWithin }) => [
      ...expectOwn('hold', 'holds', ifSignWithin?.hold),
      ...expectOwn('step', 'holds', range?.checkedBy?.step),
      ...(range?.stopSigns?.signs ?? [])
        .filter((sign) => !known.sign.has(sign))
        .map((sign) => complain('plan', id, 'holds', sign, 'the id of a sign')),
      ...(range?.parameters ?? [])
        .filter((parameter) => !known.parameter.has(parameter))
        .map((parameter) => complain('plan', id, 'holds', parameter, 'the id of a parameter')),
    ]),
  ];
}
