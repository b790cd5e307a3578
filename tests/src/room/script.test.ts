import { describe, expect, test } from 'vitest';
import { ScriptError, readAct, type ScriptAct } from '../../../src/room/script.ts';

const KNOWN = new Set(['name', 'critter', 'with']);
const read = (line: string) => readAct(line, KNOWN);

describe('every form of an act is understood', () => {
  test.each<[string, ScriptAct | null]>([
    ['', null],
    ['   ', null],
    ['# a remark', null],
    ['  # @ines says hello', null],
    ['restart', { kind: 'restart' }],
    ['  restart  ', { kind: 'restart' }],
    [
      '@ines /critter name critter:bristle worm',
      { kind: 'slash', who: 'ines', command: 'critter name', options: [{ name: 'critter', value: 'bristle worm' }] },
    ],
    ['@ines /critter name', { kind: 'slash', who: 'ines', command: 'critter name', options: [] }],
    [
      '@ines /critter compare critter:aiptasia with:majano anemone',
      {
        kind: 'slash',
        who: 'ines',
        command: 'critter compare',
        options: [
          { name: 'critter', value: 'aiptasia' },
          { name: 'with', value: 'majano anemone' },
        ],
      },
    ],
    [
      '@ines   /critter name   critter:  worm  ',
      { kind: 'slash', who: 'ines', command: 'critter name', options: [{ name: 'critter', value: 'worm' }] },
    ],
    [
      '@ines types /critter name critter:brist',
      { kind: 'types', who: 'ines', command: 'critter name', options: [{ name: 'critter', value: 'brist' }] },
    ],
    [
      '@ines types /critter name critter:',
      { kind: 'types', who: 'ines', command: 'critter name', options: [{ name: 'critter', value: '' }] },
    ],
    ['@ines press Compare with…', { kind: 'press', who: 'ines', label: 'Compare with…' }],
    ['@ines press Card: Majano anemone', { kind: 'press', who: 'ines', label: 'Card: Majano anemone' }],
    [
      '@ines choose Which one = Red tufts, none',
      { kind: 'choose', who: 'ines', select: 'Which one', options: ['Red tufts', 'none'] },
    ],
    [
      '@ines fill Where = on the glass; How big = 5 mm = half a cm',
      { kind: 'fill', who: 'ines', fields: { Where: 'on the glass', 'How big': '5 mm = half a cm' } },
    ],
    ['@ines fill Where =', { kind: 'fill', who: 'ines', fields: { Where: '' } }],
    ['@ines says @bot is a  worm bad?', { kind: 'says', who: 'ines', text: '@bot is a  worm bad?' }],
    ['@ines says /critter name', { kind: 'says', who: 'ines', text: '/critter name' }],
    ['@ines says first\nsecond', { kind: 'says', who: 'ines', text: 'first\nsecond' }],
    ['@ines menu Ask the club', { kind: 'menu', who: 'ines', entry: 'Ask the club' }],
    ['@ines.b-2_x says hi', { kind: 'says', who: 'ines.b-2_x', text: 'hi' }],
    ['member ines', { kind: 'member', spec: { name: 'ines', roles: [] } }],
    [
      'member @ines curator officer dm-closed zone=Europe/Lisbon locale=pt-BR',
      {
        kind: 'member',
        spec: { name: 'ines', roles: ['curator', 'officer'], dmClosed: true, zone: 'Europe/Lisbon', locale: 'pt-BR' },
      },
    ],
    ['clock +3d', { kind: 'clock', advanceMs: 259_200_000 }],
    ['clock +1h30m', { kind: 'clock', advanceMs: 5_400_000 }],
    ['clock +1w 2d 3h 4m 5s', { kind: 'clock', advanceMs: 788_645_000 }],
    ['clock +0.5h', { kind: 'clock', advanceMs: 1_800_000 }],
    ['clock +0s', { kind: 'clock', advanceMs: 0 }],
    ['clock 2026-12-01T19:00Z', { kind: 'clock', setTo: new Date('2026-12-01T19:00:00Z') }],
    ['clock 2026-12-01T19:00:30+01:00', { kind: 'clock', setTo: new Date('2026-12-01T18:00:30Z') }],
  ])('%j', (line, act) => {
    expect(read(line)).toEqual(act);
  });
});

describe('a colon inside a value is left alone', () => {
  const value = (line: string) => {
    const act = read(`@a /critter name ${line}`);
    return act && 'options' in act && act.kind === 'slash' ? act.options : null;
  };
  test.each([
    ['critter:ratio 1:2', [{ name: 'critter', value: 'ratio 1:2' }]],
    ['critter:see https://example.org/a:b', [{ name: 'critter', value: 'see https://example.org/a:b' }]],
    ['critter:worm note:pink', [{ name: 'critter', value: 'worm note:pink' }]],
    ['critter:a:b', [{ name: 'critter', value: 'a:b' }]],
    ['critter:5:30 pm: seen', [{ name: 'critter', value: '5:30 pm: seen' }]],
    [
      'critter:worm: pink with:x:y',
      [
        { name: 'critter', value: 'worm: pink' },
        { name: 'with', value: 'x:y' },
      ],
    ],
    ['critter:Name:x', [{ name: 'critter', value: 'Name:x' }]],
  ])('%s', (line, options) => {
    expect(value(line)).toEqual(options);
  });

  test('the first option is taken by any name, so that a misspelt one is told and not swallowed', () => {
    expect(value('critr:worm')).toEqual([{ name: 'critr', value: 'worm' }]);
  });
});

describe('a line that fits no act says what came and what was expected', () => {
  test.each([
    ['hello', 'came "hello", expected @NAME and an act, member, clock or restart'],
    ['restart now', 'came "restart now", expected @NAME and an act'],
    ['@ines', 'came "@ines", expected @NAME and an act'],
    ['@ sees', 'came "@ sees", expected @NAME and an act'],
    ['/critter name critter:worm', 'came "/critter name critter:worm", expected @NAME and an act'],
    ['@ines sings a song', 'came the act "sings", expected /COMMAND, types, press, choose, fill, says or menu'],
    ['@ines PRESS Card', 'came the act "PRESS", expected'],
    ['@ines choose Which one', 'came "choose Which one", expected: choose LABEL = option, option'],
    ['@ines choose', 'came "choose ", expected: choose LABEL'],
    ['@ines fill Where', 'came "fill Where", expected: fill LABEL = text; LABEL = text'],
    ['@ines fill A = b; C', 'came "fill  C", expected: fill LABEL = text'],
    ['@ines fill', 'came "fill ", expected: fill LABEL'],
    ['member', 'came "member" alone, expected: member NAME [curator]'],
    ['member ines captain', 'came "captain" after member ines, expected curator, officer, dm-closed'],
    ['member ines zone=', 'came "zone=" after member ines, expected'],
    ['member ines locale', 'came "locale" after member ines, expected'],
    ['member ines zone', 'came "zone" after member ines, expected'],
    ['clock', 'came "clock ", expected a step such as +3d or +1h30m, or an instant'],
    ['clock +', 'came "clock +", expected a step'],
    ['clock +3', 'came "clock +3", expected a step'],
    ['clock +3x', 'came "clock +3x", expected a step'],
    ['clock +d3', 'came "clock +d3", expected a step'],
    ['clock +1h and 2m', 'came "clock +1h and 2m", expected a step'],
    ['clock -3d', 'came "clock -3d", expected a step'],
    ['clock tomorrow', 'came "clock tomorrow", expected a step'],
    ['clock 2026-12-01', 'came "clock 2026-12-01", expected a step'],
    ['clock 2026-13-41T00:00Z', 'came "clock 2026-13-41T00:00Z", expected a step'],
  ])('%j', (line, message) => {
    const failure = caught(() => read(line));
    expect(failure).toBeInstanceOf(ScriptError);
    expect((failure as ScriptError).message).toContain(message);
  });

  test('a long line is shortened in the message', () => {
    const failure = caught(() => read('x'.repeat(5_000)));
    expect((failure as ScriptError).message.length).toBeLessThan(200);
    expect((failure as ScriptError).message).toContain('…');
  });
});

function caught(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    return error;
  }
  throw new Error('nothing was thrown');
}
