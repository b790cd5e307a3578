import { describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { definitionsOf } from '../../../src/discord/definitions.ts';
import { indexKnowledge } from '../../../src/knowledge/knowledge-base.ts';

const empty = indexKnowledge({
  format: 1,
  critters: [],
  corals: [],
  lookAlikes: [],
  sources: [],
  firstAid: [],
  ambiguousNames: [],
  parameters: [],
  reagents: [],
  fish: [],
  lifeCycles: [],
  plans: [],
  purposes: [],
  remedies: [],
  signs: [],
  chores: [],
});
const abilities = createAbilities(empty);
type Shape = { name: string; description: string; type?: number; required?: boolean; options?: Shape[] };
const definitions = JSON.parse(JSON.stringify(definitionsOf(abilities.all))) as Shape[];
const flat = (shape: Shape): Shape[] => [shape, ...(shape.options ?? []).flatMap(flat)];

describe('definitionsOf', () => {
  test('every command of ours is a subcommand, found by its full name', () => {
    const names = definitions.flatMap(({ name, options = [] }) => options.map((sub) => `${name} ${sub.name}`));
    expect(names.toSorted()).toEqual(abilities.all.map(({ name }) => name).toSorted());
    expect(names.length).toBeGreaterThanOrEqual(2);
  });

  test('one command a noun, with a sentence about it', () => {
    expect(new Set(definitions.map(({ name }) => name)).size).toBe(definitions.length);
    for (const { name, description } of definitions) expect(description, name).not.toBe(name);
  });

  test('names, descriptions and options keep the limits of Discord', () => {
    for (const shape of definitions.flatMap(flat)) {
      expect(shape.name).toMatch(/^[a-z0-9-]{1,32}$/);
      expect(shape.description.length).toBeGreaterThan(0);
      expect(shape.description.length).toBeLessThanOrEqual(100);
      expect(shape.options?.length ?? 0).toBeLessThanOrEqual(25);
    }
  });

  test('required options stand before the others', () => {
    for (const { options = [] } of definitions.flatMap(flat)) {
      const required = options.map((option) => option.required ?? false);
      expect(required).toEqual(required.toSorted((one, other) => Number(other) - Number(one)));
    }
  });

  test('for servers and for direct messages with the bot, installed to servers', () => {
    for (const definition of definitions)
      expect(definition).toMatchObject({ contexts: [0, 1], integration_types: [0] });
  });
});
