import { offNaturalAsSaltG, type Effects } from './joint-plan-effects.ts';
import { DRIFTING, PLANNED, type Planned } from './joint-plan-model.ts';
import type { Span } from './joint-plan-order.ts';

// All rows of values are in daily caps (a rise of 3 caps takes 3 days) and all grams are per litre, so that the solver sees
// numbers of one size for a jar and for a public aquarium.

/** Needed rises of the values that have a target, and the daily caps of all four, in their units. */
export type Wanted = {
  needs: Partial<Record<Planned, number>>;
  capADay: Readonly<Record<Planned, number>>;
};

type Term = readonly [coefficient: number, variable: string];

/** Grams per litre of a reagent over all days of a span. Days within a span are alike, so an even split is as good as any. */
export const dosed = (reagent: number, span: number): string => `x${reagent}_${span}`;
/** How far a value would end above its target, in daily caps. */
export const above = (planned: Planned): string => `above_${planned}`;

/**
 * The programme of least salt and least drift: least Σ salt + Σ |ion off its natural share of that salt|, every ion taken as
 * the grams of sea salt that hold as much of it, weight 1 each. |d| is written as u + v with d = u − v.
 */
export function leastSaltProgramme(effects: readonly Effects[], spans: readonly Span[], wanted: Wanted): string {
  return programme(saltAndDrift(effects, spans), rowsOf(effects, spans, wanted));
}

/** Among the plans with that little salt and drift, the one that doses each reagent most evenly. */
export function evenestProgramme(
  effects: readonly Effects[],
  spans: readonly Span[],
  wanted: Wanted,
  least: number,
): string {
  const most = (reagent: number) => `most_${reagent}`;
  return programme(
    effects.map((_effect, reagent): Term => [1, most(reagent)]),
    [
      ...rowsOf(effects, spans, wanted),
      row(saltAndDrift(effects, spans), '<=', least * (1 + 1e-9)),
      ...spans.flatMap(({ days, reagents }, span) =>
        reagents.map((reagent) =>
          row(
            [
              [1 / days, dosed(reagent, span)],
              [-1, most(reagent)],
            ],
            '<=',
            0,
          ),
        ),
      ),
    ],
  );
}

/** Days that a turn takes, as a number of any size. */
const daysIn = (turn: number): string => `days_${turn}`;
/** As good as endless, for turns whose days are not looked at. */
const PLENTY = 1e4;

/**
 * The least days that the turns named in `counted` need together when the others have plenty and no day is shared. It is no
 * more than any plan takes: a day that two turns share gives each of them at most a day of its own.
 */
export function leastDaysProgramme(
  effects: readonly Effects[],
  turns: readonly number[],
  wanted: Wanted,
  counted: readonly number[],
): string {
  const count = Math.max(...turns) + 1;
  const spans = Array.from({ length: count }, (_none, turn): Span => ({
    days: PLENTY,
    reagents: turns.flatMap((each, reagent) => (each === turn ? [reagent] : [])),
  }));
  const within = (terms: readonly Term[], turn: number, each: number): string =>
    counted.includes(turn) ? row([...terms, [-each, daysIn(turn)]], '<=', 0) : row(terms, '<=', PLENTY * each);
  return programme(
    counted.map((turn): Term => [1, daysIn(turn)]),
    [
      ...reachRows(effects, spans, wanted),
      ...spans.flatMap((span, turn) => [
        ...PLANNED.map((planned) => within(riseTerms(effects, spans, wanted, planned, [turn]), turn, 1)),
        ...span.reagents.flatMap((reagent) => {
          const most = effects[reagent]?.mostGPerLADay ?? Infinity;
          return most < Infinity ? [within([[1, dosed(reagent, turn)]], turn, most)] : [];
        }),
      ]),
    ],
  );
}

/** Without caps and days: by how little the values overshoot when none may fall short. All zero: the targets can be met. */
export function leastOvershootProgramme(effects: readonly Effects[], wanted: Wanted): string {
  const whole: Span[] = [{ days: 1, reagents: effects.map((_effect, reagent) => reagent) }];
  const targeted = PLANNED.filter((planned) => wanted.needs[planned] !== undefined);
  return programme(
    targeted.map((planned): Term => [1, above(planned)]),
    targeted.map((planned) =>
      row(
        [...riseTerms(effects, whole, wanted, planned, [0]), [-1, above(planned)]],
        '=',
        (wanted.needs[planned] ?? 0) / wanted.capADay[planned],
      ),
    ),
  );
}

const saltAndDrift = (effects: readonly Effects[], spans: readonly Span[]): Term[] => [
  ...spans.flatMap(({ reagents }, span) =>
    reagents.map((reagent): Term => [effects[reagent]?.saltG ?? 0, dosed(reagent, span)]),
  ),
  ...DRIFTING.flatMap((ion): Term[] => [
    [1, `over_${ion}`],
    [1, `under_${ion}`],
  ]),
];

/** Every target is reached. */
function reachRows(effects: readonly Effects[], spans: readonly Span[], wanted: Wanted): string[] {
  const every = spans.map((_span, at) => at);
  return PLANNED.filter((planned) => wanted.needs[planned] !== undefined).map((planned) =>
    row(riseTerms(effects, spans, wanted, planned, every), '=', (wanted.needs[planned] ?? 0) / wanted.capADay[planned]),
  );
}

function rowsOf(effects: readonly Effects[], spans: readonly Span[], wanted: Wanted): string[] {
  return [
    ...reachRows(effects, spans, wanted),
    ...spans.flatMap(({ days }, span) =>
      PLANNED.map((planned) => row(riseTerms(effects, spans, wanted, planned, [span]), '<=', days)),
    ),
    ...spans.flatMap(({ days, reagents }, span) =>
      reagents.flatMap((reagent) => {
        const most = effects[reagent]?.mostGPerLADay ?? Infinity;
        return most < Infinity ? [row([[1, dosed(reagent, span)]], '<=', days * most)] : [];
      }),
    ),
    ...DRIFTING.map((ion) =>
      row(
        [
          ...spans.flatMap(({ reagents }, span) =>
            reagents.flatMap((reagent): Term[] => {
              const effect = effects[reagent];
              return effect ? [[offNaturalAsSaltG(ion, effect), dosed(reagent, span)]] : [];
            }),
          ),
          [-1, `over_${ion}`],
          [1, `under_${ion}`],
        ],
        '=',
        0,
      ),
    ),
  ];
}

const riseTerms = (
  effects: readonly Effects[],
  spans: readonly Span[],
  { capADay }: Wanted,
  planned: Planned,
  among: readonly number[],
): Term[] =>
  among.flatMap((span) =>
    (spans[span]?.reagents ?? []).map((reagent): Term => [
      (effects[reagent]?.rises[planned] ?? 0) / capADay[planned],
      dosed(reagent, span),
    ]),
  );

/** A row, or nothing where no variable is left in it and it holds as it stands. */
function row(terms: readonly Term[], sign: '=' | '<=', right: number): string {
  const left = sum(terms);
  if (left) return `${left} ${sign} ${right}`;
  return (sign === '=' ? right === 0 : right >= 0) ? '' : IMPOSSIBLE;
}
const IMPOSSIBLE = 'nothing = 1';

const sum = (terms: readonly Term[]): string =>
  terms
    .filter(([coefficient]) => coefficient !== 0)
    .map(([coefficient, variable]) => `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} ${variable}`)
    .join('\n ');

/** All variables are grams, shares or sizes, so none is below zero, which is what the LP form takes when nothing is said. */
function programme(least: readonly Term[], rows: readonly string[]): string {
  const numbered = rows.filter((each) => each !== '').map((each, at) => ` r${at}: ${each}`);
  return [
    'Minimize',
    ` obj: ${sum(least) || '+ 0 nothing'}`,
    'Subject To',
    ...numbered,
    'Bounds',
    ' nothing <= 0',
    'End',
    '',
  ].join('\n');
}
