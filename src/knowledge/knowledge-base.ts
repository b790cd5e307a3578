import type { AmbiguousName } from './ambiguous-name.ts';
import type { ChoreIdea } from './chore.ts';
import type { Coral } from './coral.ts';
import type { Critter } from './critter.ts';
import type { FirstAid } from './first-aid.ts';
import type { LookAlike } from './look-alike.ts';
import type { Parameter } from './parameter.ts';
import type { Fish } from './fish.ts';
import type { LifeCycle } from './life-cycle.ts';
import type { Plan } from './plan.ts';
import type { Purpose } from './purpose.ts';
import type { Remedy } from './remedy.ts';
import type { Sign } from './sign.ts';
import type { Reagent } from './reagent.ts';
import type { Source } from './source.ts';
import type { TraitVocabulary } from './trait-vocabulary.ts';

/** Everything the club knows, as it is written to disk compiled and read at the start. */
export type CompiledKnowledge = {
  format: number;
  critters: Critter[];
  corals: Coral[];
  lookAlikes: LookAlike[];
  sources: Source[];
  firstAid: FirstAid[];
  ambiguousNames: AmbiguousName[];
  parameters: Parameter[];
  fish: Fish[];
  lifeCycles: LifeCycle[];
  plans: Plan[];
  purposes: Purpose[];
  remedies: Remedy[];
  signs: Sign[];
  chores: ChoreIdea[];
  reagents: Reagent[];
  /** How members speak of what they see; absent only in a base put together for a test. */
  traits?: TraitVocabulary;
};

/** Raised with every change of the compiled shape, so that an old file is refused and not misread. */
export const KNOWLEDGE_FORMAT = 9;

/** Everything the club knows, ready to answer. */
export type KnowledgeBase = {
  critters: ReadonlyMap<string, Critter>;
  corals: ReadonlyMap<string, Coral>;
  /** Both critters of a pair reach it. */
  lookAlikesOf: ReadonlyMap<string, readonly LookAlike[]>;
  lookAlikes: ReadonlyMap<string, LookAlike>;
  sources: ReadonlyMap<string, Source>;
  firstAid: ReadonlyMap<string, FirstAid>;
  ambiguousNames: readonly AmbiguousName[];
  /** Quantities of the water, and what is held to be right for them. */
  parameters: ReadonlyMap<string, Parameter>;
  fish: ReadonlyMap<string, Fish>;
  lifeCycles: ReadonlyMap<string, LifeCycle>;
  plans: ReadonlyMap<string, Plan>;
  /** What a quarantine is begun for, in the order of the list. */
  purposes: ReadonlyMap<string, Purpose>;
  remedies: ReadonlyMap<string, Remedy>;
  signs: ReadonlyMap<string, Sign>;
  /** Jobs that come again, as suggestions. */
  chores: ReadonlyMap<string, ChoreIdea>;
  /** What is dissolved to raise them. */
  reagents: ReadonlyMap<string, Reagent>;
  traits?: TraitVocabulary;
};

const byId = <T extends { id: string }>(items: readonly T[]) => new Map(items.map((item) => [item.id, item]));

/** Builds the indexes that answers need. */
export function indexKnowledge(compiled: CompiledKnowledge): KnowledgeBase {
  const lookAlikesOf = new Map<string, LookAlike[]>();
  for (const pair of compiled.lookAlikes) {
    for (const id of [pair.a, pair.b]) lookAlikesOf.set(id, [...(lookAlikesOf.get(id) ?? []), pair]);
  }
  return {
    critters: byId(compiled.critters),
    corals: byId(compiled.corals),
    lookAlikesOf,
    lookAlikes: byId(compiled.lookAlikes),
    sources: byId(compiled.sources),
    firstAid: byId(compiled.firstAid),
    ambiguousNames: compiled.ambiguousNames,
    parameters: byId(compiled.parameters),
    fish: byId(compiled.fish),
    lifeCycles: byId(compiled.lifeCycles),
    plans: byId(compiled.plans),
    purposes: byId([...compiled.purposes].sort((one, other) => one.order - other.order)),
    remedies: byId(compiled.remedies),
    signs: byId(compiled.signs),
    chores: byId(compiled.chores),
    reagents: byId(compiled.reagents),
    ...(compiled.traits ? { traits: compiled.traits } : {}),
  };
}

/** The pair entry of two critters, whichever is named first. */
export function pairOf(base: KnowledgeBase, one: string, other: string): LookAlike | undefined {
  return base.lookAlikes.get(`${one}--${other}`) ?? base.lookAlikes.get(`${other}--${one}`);
}
