import { expect, test } from 'vitest';
import { findCommands, missingFrom, optionsOf, readLine } from '../../../src/room/page/command-line.ts';
import type { PageCommand, PageOption } from '../../../src/room/page-shapes.ts';

const option = (name: string, required = false): PageOption => ({
  name,
  description: `about ${name}`,
  type: 3,
  required,
  choices: [],
  autocomplete: false,
  min: null,
  max: null,
});
const command = (name: string, description: string, options: PageOption[]): PageCommand => ({
  id: name,
  kind: 'slash',
  name,
  description,
  options,
  direct: true,
});
const NAME = command('critter name', 'Look an animal up', [option('critter', true), option('photo')]);
const COMPARE = command('critter compare', 'Tell two look-alikes apart', [
  option('first', true),
  option('second', true),
]);
const ALL = [NAME, COMPARE, command('help', 'What the bot can do', [])];

const sent = (line: string) => {
  const read = readLine(line, ALL);
  return read.phase === 'options' ? { command: read.command.name, options: optionsOf(read) } : read.phase;
};

test.each([
  ['hello there', 'words'],
  ['/cri', 'command'],
  ['/critter name', 'command'],
  [
    '/critter name critter:bristle worm',
    { command: 'critter name', options: [{ name: 'critter', value: 'bristle worm' }] },
  ],
  ['/critter name bristle worm', { command: 'critter name', options: [{ name: 'critter', value: 'bristle worm' }] }],
  [
    '/critter name critter:ratio 1:3 worm',
    { command: 'critter name', options: [{ name: 'critter', value: 'ratio 1:3 worm' }] },
  ],
  [
    '/critter compare first:bristle worm second:fireworm',
    {
      command: 'critter compare',
      options: [
        { name: 'first', value: 'bristle worm' },
        { name: 'second', value: 'fireworm' },
      ],
    },
  ],
  [
    '/critter compare bristle worm second:fireworm',
    {
      command: 'critter compare',
      options: [
        { name: 'first', value: 'bristle worm' },
        { name: 'second', value: 'fireworm' },
      ],
    },
  ],
  ['/help ', { command: 'help', options: [] }],
])('reads %s', (line, expected) => {
  expect(sent(line)).toEqual(expected);
});

test('finds commands by their beginning, then by a word, then by what they are for', () => {
  expect(findCommands('cri', ALL).map(({ name }) => name)).toEqual(['critter compare', 'critter name']);
  expect(findCommands('na', ALL).map(({ name }) => name)).toEqual(['critter name']);
  expect(findCommands('look-alikes', ALL).map(({ name }) => name)).toEqual(['critter compare']);
});

test('says which required options are missing', () => {
  expect(missingFrom(COMPARE, [{ name: 'first', value: 'bristle worm' }])).toEqual(['second']);
});
