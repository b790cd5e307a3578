import { isHarmful } from '../../../src/identification/decide.ts';
import type { Evidence } from '../../../src/identification/evidence.ts';
import { ACTS, type Act } from '../../../src/identification/harm.ts';
import type { Identifier } from '../../../src/identification/identify.ts';
import { valuesOf } from '../../../src/identification/model.ts';
import type { Option, Question } from '../../../src/identification/questions.ts';
import { askedIn, evidenceOf, NOTHING_DESCRIBED, type Answer } from '../../../src/identification/session.ts';
import type { Critter } from '../../../src/knowledge/critter.ts';
import { seeded, type Seeded } from './seeded.ts';

/** The key stops here at the latest, as the buttons do. */
export const MOST_QUESTIONS = 8;

export type KeyRun = {
  critter: Critter;
  /** The chance of meeting the animal, shared among its runs. */
  weight: number;
  answers: Answer[];
  act: Act;
  first: string | undefined;
  inThree: boolean;
};

/** Every entry led through the key by a member who errs in a share of the answers. */
export function keyRuns(identifier: Identifier, runsEach: number, wrongShare: number, seed: number): KeyRun[] {
  const random = seeded(seed);
  const model = identifier.model();
  return model.critters.flatMap((critter, index) =>
    Array.from({ length: runsEach }, () => {
      const answers = answersFor(identifier, critter, wrongShare, random);
      const { act, candidates } = identifier.identify(evidenceAfter(identifier, answers)).decision;
      return {
        critter,
        weight: (model.prior[index] ?? 0) / runsEach,
        answers,
        act,
        first: candidates[0]?.critter.id,
        inThree: candidates.some((candidate) => candidate.critter.id === critter.id),
      };
    }),
  );
}

export const evidenceAfter = (identifier: Identifier, answers: readonly Answer[]): Evidence =>
  evidenceOf(identifier.model(), identifier.base, { described: NOTHING_DESCRIBED, answers });

function answersFor(identifier: Identifier, critter: Critter, wrongShare: number, random: Seeded): Answer[] {
  const answers: Answer[] = [];
  while (answers.length < MOST_QUESTIONS) {
    const identified = identifier.identify(evidenceAfter(identifier, answers));
    const question = identifier.question(identified, askedIn({ answers }));
    if (!question) break;
    const option = random.chance(wrongShare) ? random.pick(question.options) : rightOption(critter, question, random);
    answers.push({ question: question.id, option: option?.id ?? 'skip' });
  }
  return answers;
}

/** What an attentive member presses; undefined is "can't see", where the entry does not say or nothing offered fits. */
function rightOption(critter: Critter, { id, trait, options }: Question, random: Seeded): Option | undefined {
  if (id === 'sizeMm') return lengthOption(critter, options, random);
  if (trait === undefined) return options.find((option) => option.id === critter.id);
  const own = valuesOf(critter, trait);
  const fitting = options.filter((option) => own.includes(option.id));
  return fitting.length > 0 ? random.pick(fitting) : undefined;
}

function lengthOption({ traits }: Critter, options: readonly Option[], random: Seeded): Option | undefined {
  if (!traits.sizeMm) return undefined;
  const [low, high] = traits.sizeMm;
  const mm = low * (high / low) ** random.next();
  return options.find(({ adds }) =>
    (adds.observations ?? []).some((each) => each.kind === 'size' && each.lowMm <= mm && mm <= each.highMm),
  );
}

export type KeyFigures = {
  runs: number;
  /** Share of the runs by the number of questions, and by the chance of meeting the animal. */
  unweighted: number[];
  weighted: number[];
  medianWeighted: number;
  withinFive: number;
  withinFiveWeighted: number;
  first: number;
  inThree: number;
  firstWeighted: number;
  inThreeWeighted: number;
  /** Runs in which the act is at least as careful as the entry's verdict; "can't tell" counts as less than "remove". */
  careful: number;
  /** The same with "can't tell" counted as careful: it says to isolate, keep hands off and ask. */
  carefulOrAsked: number;
  /** Harmful entries of which "leave it" was said, with what they were taken for. */
  harmfulLeft: string[];
};

export function keyFigures(runs: readonly KeyRun[]): KeyFigures {
  const total = runs.reduce((sum, { weight }) => sum + weight, 0);
  const share = (is: (run: KeyRun) => boolean) => runs.filter(is).length / runs.length;
  const weightOf = (is: (run: KeyRun) => boolean) =>
    runs.reduce((sum, run) => sum + (is(run) ? run.weight : 0), 0) / total;
  const counts = Array.from({ length: MOST_QUESTIONS + 1 }, (_each, count) => count);
  const asked =
    (count: number) =>
    ({ answers }: KeyRun) =>
      answers.length === count;
  const upTo =
    (count: number) =>
    ({ answers }: KeyRun) =>
      answers.length <= count;
  const isFirst = ({ critter, first }: KeyRun) => first === critter.id;
  const isCareful = ({ act, critter }: KeyRun) => ACTS.indexOf(act) >= ACTS.indexOf(critter.verdict);
  return {
    runs: runs.length,
    unweighted: counts.map((count) => share(asked(count))),
    weighted: counts.map((count) => weightOf(asked(count))),
    medianWeighted: counts.find((count) => weightOf(upTo(count)) >= 0.5) ?? NaN,
    withinFive: share(upTo(5)),
    withinFiveWeighted: weightOf(upTo(5)),
    first: share(isFirst),
    inThree: share(({ inThree }) => inThree),
    firstWeighted: weightOf(isFirst),
    inThreeWeighted: weightOf(({ inThree }) => inThree),
    careful: share(isCareful),
    carefulOrAsked: share((run) => isCareful(run) || run.act === 'ask'),
    harmfulLeft: runs
      .filter(({ act, critter }) => act === 'keep' && isHarmful(critter))
      .map(({ critter, first }) => `${critter.id} as ${first}`),
  };
}

/** The figures as text. */
export function keyText(figures: KeyFigures): string {
  const percent = (share: number) => `${(share * 100).toFixed(1)} %`;
  return [
    'questions  entries alike  by how often met',
    ...figures.unweighted.map(
      (share, count) =>
        `${String(count).padEnd(9)}  ${percent(share).padStart(13)}  ${percent(figures.weighted[count] ?? 0).padStart(16)}`,
    ),
    `five or fewer: ${percent(figures.withinFive)}; by how often met ${percent(figures.withinFiveWeighted)}, median ${figures.medianWeighted}`,
    `first: ${percent(figures.first)}, in three: ${percent(figures.inThree)}; by how often met ${percent(figures.firstWeighted)} and ${percent(figures.inThreeWeighted)}`,
    `as careful as the entry: ${percent(figures.careful)}; with "can't tell": ${percent(figures.carefulOrAsked)}`,
    `harmful ones left alone: ${figures.harmfulLeft.length} of ${figures.runs}${figures.harmfulLeft.length > 0 ? ` (${figures.harmfulLeft.join(', ')})` : ''}`,
  ].join('\n');
}
