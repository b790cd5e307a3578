import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { decide, type Decision } from './decide.ts';
import type { Evidence } from './evidence.ts';
import { explain, type Explanation } from './explain.ts';
import { buildLexicon } from './lexicon.ts';
import { buildModel, type Model } from './model.ts';
import { posteriorOf, type CoralCompany, type Posterior } from './posterior.ts';
import { nextQuestion, type Question } from './questions.ts';
import { readDescription, type ReadDescription, type Reader } from './read-description.ts';

/** What the engine makes of a sighting. */
export type Identified = {
  evidence: Evidence;
  posterior: Posterior;
  decision: Decision;
  /** Why each candidate has its score, by entry id. */
  explanations: ReadonlyMap<string, Explanation>;
};

/** The engine over one knowledge base. Pure; tables are built at the first use. */
export type Identifier = {
  base: KnowledgeBase;
  model(): Model;
  read(text: string): ReadDescription;
  identify(evidence: Evidence): Identified;
  /** The next question worth asking, or null. */
  question(identified: Identified, asked: ReadonlySet<string>): Question | null;
};

/**
 * @throws Error when the base has no vocabulary of traits.
 */
export function createIdentifier(base: KnowledgeBase, finder: Finder): Identifier {
  let built: { model: Model; reader: Reader; company: CoralCompany } | undefined;
  const parts = () => (built ??= build(base, finder));
  return {
    base,
    model: () => parts().model,
    read: (text) => readDescription(text, parts().reader),
    identify(evidence) {
      const { model, company } = parts();
      const posterior = posteriorOf(model, base, evidence, company);
      const decision = decide(model, base, posterior, evidence);
      const named = [
        ...decision.candidates.map(({ critter }) => critter.id),
        ...decision.notRuledOut.map(({ id }) => id),
        ...decision.oneSlipAway.map(({ id }) => id),
      ];
      return {
        evidence,
        posterior,
        decision,
        explanations: new Map(named.map((id) => [id, explain(model, posterior, id)])),
      };
    },
    question: (identified, asked) => nextQuestion(parts().model, base, identified, asked),
  };
}

function build(base: KnowledgeBase, finder: Finder) {
  if (!base.traits) throw new Error('the knowledge base has no traits.yaml, so nothing can be identified from words');
  const model = buildModel(base, base.traits);
  const company: CoralCompany = new Map([...base.corals].map(([id, { pests, lodgers }]) => [id, { pests, lodgers }]));
  return { model, reader: { lexicon: buildLexicon(base.traits), finder, prose: model.prose }, company };
}
