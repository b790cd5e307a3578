import { z } from 'zod';
import { echoLine } from '../calculators/quantity-option.ts';
import { quantityProblemView } from '../calculators/quantity-problem.view.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md, type Answer, type Markdown, type Request } from '../discord/message-view.ts';
import { onOwnTank, suggestTanks, TANK_OPTION, TypedTank, type TankDeps } from './asked-tank.command.ts';
import { broughtBy, dosedChoices, dosedMass, dosedWhat } from './dose-text.ts';
import { strengthMissingView, unknownDoseView } from './dose-trouble.view.ts';
import { parameterNamed, readValue } from './measured.ts';
import { amountOption, Text, WHEN_OPTION } from './note-options.ts';
import { notedDoseView } from './noted.view.ts';
import type { DoseEffect } from './tank-log.ts';
import { parameterTroubleView, whenTroubleView } from './tank-trouble.view.ts';
import type { Tank } from './tank.ts';
import { readWhen } from './when.ts';

/** A doser that nobody looks at for longer is not known to run. */
const MOST_DAYS = 60;

/** `/tank dosed`: notes a dose that went in. */
export const dosedCommand = (deps: TankDeps): AnyCommand =>
  defineCommand({
    name: 'tank dosed',
    description: 'Note a dose that went in, so that it is reckoned with',
    options: [
      {
        name: 'what',
        description: 'The reagent, such as baking soda; or what rose, such as alkalinity',
        required: true,
        autocomplete: true,
        mostCharacters: 100,
      },
      {
        name: 'amount',
        description: '20 g; 50 mL together with strength; or the rise, 0.5 dKH',
        required: true,
        mostCharacters: 100,
      },
      TANK_OPTION,
      amountOption('strength', 'Of a solution, where amount is in mL: 80 g/L'),
      {
        kind: 'whole-number',
        name: 'days',
        description: 'The same on so many days in a row, the last of them when',
        required: false,
        least: 1,
        most: MOST_DAYS,
      },
      WHEN_OPTION,
    ],
    input: z.object({
      what: z.string().max(100),
      amount: z.string(),
      tank: TypedTank,
      strength: Text,
      days: z.int().min(1).max(MOST_DAYS).default(1),
      when: Text,
    }),
    run: (given, request) => onOwnTank(deps, given.tank, request, (tank) => noteDose(deps, tank, given, request)),
    suggest: (option, typed, request, given) =>
      option === 'tank'
        ? suggestTanks(deps, typed, request, given)
        : option === 'what'
          ? dosedChoices(deps.base, typed)
          : [],
  });

type GivenDose = {
  what: string;
  amount: string;
  strength?: string | undefined;
  days: number;
  when?: string | undefined;
};

function noteDose({ base, tanks }: TankDeps, tank: Tank, given: GivenDose, { now }: Request): Answer {
  const when = readWhen(given.when ?? '', now);
  if (when.kind !== 'at') return whenTroubleView(when, given.when ?? '');
  const read = readDose(base, tank, given);
  if ('view' in read) return read.view;
  const noted = tanks.note(
    tank,
    { kind: 'dose', what: read.what, effect: read.effect, days: given.days, at: when.at },
    now,
  );
  if (noted.entry.kind !== 'dose') throw new RangeError('a dose was noted as something else');
  return notedDoseView(base, {
    tank: noted.tank,
    dose: noted.entry,
    understood: read.understood,
    dropped: noted.dropped,
    changeId: noted.changeId,
  });
}

type ReadDose = { what: string; effect: DoseEffect; understood: Markdown[] } | { view: Answer };

function readDose(base: TankDeps['base'], tank: Tank, { what: typed, amount: text, strength }: GivenDose): ReadDose {
  const what = dosedWhat(base, typed);
  switch (what.kind) {
    case 'unknown':
      return { view: unknownDoseView(typed) };
    case 'rise': {
      const named = parameterNamed(base, what.parameter.id);
      if (named.kind !== 'parameter') return { view: parameterTroubleView(named) };
      const rise = readValue(text, named.as, tank.units);
      if (rise.kind !== 'read') return { view: quantityProblemView([{ name: 'amount', outcome: rise }]) };
      return {
        what: `${rise.understood.split(' = ')[0] ?? rise.understood} more ${what.parameter.name.toLowerCase()}`,
        effect: { by: 'rise', of: { [what.parameter.id]: rise.si } },
        understood: [echoLine('rise', rise)],
      };
    }
    case 'reagent': {
      const mass = dosedMass(text, strength);
      if (mass.kind === 'unread') return { view: quantityProblemView([{ name: mass.name, outcome: mass.outcome }]) };
      if (mass.kind === 'strength-missing') return { view: strengthMissingView(mass.understood) };
      const { reagent } = what;
      const names = ['amount', 'strength'];
      const said = mass.understood.map(({ understood }) => understood.split(' = ')[0] ?? understood).join(' of ');
      return {
        what: `${said} ${reagent.name.toLowerCase()}`,
        effect: { by: 'total', of: broughtBy(base, reagent, mass.massG) },
        understood: [
          ...mass.understood.map((each, at) => echoLine(names[at] ?? 'amount', each)),
          md`Reckoned as pure ${reagent.name.toLowerCase()}; what has drawn water or was baked only in part brings less.`,
        ],
      };
    }
  }
}
