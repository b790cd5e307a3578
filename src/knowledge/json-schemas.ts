import { z } from 'zod';
import { AmbiguousName } from './ambiguous-name.ts';
import { ChoreIdea } from './chore.ts';
import { Coral } from './coral.ts';
import { Critter } from './critter.ts';
import { FirstAid } from './first-aid.ts';
import { LookAlike } from './look-alike.ts';
import { Parameter } from './parameter.ts';
import { Fish } from './fish.ts';
import { LifeCycle } from './life-cycle.ts';
import { Plan } from './plan.ts';
import { Purpose } from './purpose.ts';
import { Remedy } from './remedy.ts';
import { Sign } from './sign.ts';
import { Reagent } from './reagent.ts';
import { Sources } from './source.ts';
import { TraitVocabulary } from './trait-vocabulary.ts';

/** The JSON Schemas that editors use, by file name, as they should stand in knowledge/schema. */
export function jsonSchemas(): Map<string, string> {
  const schemas = {
    critter: Critter,
    coral: Coral,
    'look-alike': LookAlike,
    'first-aid': FirstAid,
    'ambiguous-name': AmbiguousName,
    parameter: Parameter,
    fish: Fish,
    'life-cycle': LifeCycle,
    plan: Plan,
    purpose: Purpose,
    remedy: Remedy,
    sign: Sign,
    chore: ChoreIdea,
    reagent: Reagent,
    sources: Sources,
    traits: TraitVocabulary,
  };
  return new Map(
    Object.entries(schemas).map(([name, schema]) => [
      `${name}.schema.json`,
      `${JSON.stringify(z.toJSONSchema(schema, { io: 'input' }), null, 2)}\n`,
    ]),
  );
}
