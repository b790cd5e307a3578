import type { APIButtonComponentWithCustomId, APIComponentInContainer } from 'discord.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Block, ButtonView, MessageView } from '../../../src/discord/message-view.ts';
import { render } from '../../../src/discord/render.ts';
import { contentsOf, countOf, expectWithinLimits, textsOf } from './rendered.ts';

const EPHEMERAL = 64;
const COMPONENTS_V2 = 32_768;

const text = (markdown: string, fold?: number): Block => ({
  kind: 'text',
  text: { markdown },
  ...(fold === undefined ? {} : { fold }),
});
const button = (label: string, word = label): ButtonView => ({ label, act: 'card', args: [word] });
const view = (blocks: Block[], rest: Partial<MessageView> = {}): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks,
  ...rest,
});
const isRow = (part: APIComponentInContainer) => part.type === 1;
const labelsOf = (parts: APIComponentInContainer[]) =>
  parts.flatMap((part) => ('components' in part ? part.components.map((each) => Reflect.get(each, 'label')) : []));

describe('any view', () => {
  const letters = fc.constantFrom('a', 'worm ', '\\*', '**b** ', '🦀', 'é', '\n', '- ');
  const someText = fc
    .tuple(
      fc.array(letters, { minLength: 1, maxLength: 12 }),
      fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 400 })),
    )
    .map(([pieces, times]) => pieces.join('').repeat(times));
  const aButton: fc.Arbitrary<ButtonView> = fc.record(
    {
      label: fc.array(letters, { minLength: 1, maxLength: 60 }).map((pieces) => pieces.join('')),
      act: fc.constantFrom('card', 'compare'),
      args: fc.array(fc.stringMatching(/^[a-z-]{1,20}$/), { maxLength: 2 }),
      style: fc.constantFrom('primary', 'secondary', 'danger'),
    },
    { requiredKeys: ['label', 'act', 'args'] },
  );
  const aBlock: fc.Arbitrary<Block> = fc.oneof(
    {
      weight: 6,
      arbitrary: fc.tuple(someText, fc.integer({ min: 0, max: 5 })).map(([body, fold]) => text(body, fold)),
    },
    { weight: 1, arbitrary: fc.constant<Block>({ kind: 'rule' }) },
    {
      weight: 1,
      arbitrary: fc
        .array(aButton, { maxLength: 60, size: 'max' })
        .map((buttons): Block => ({ kind: 'buttons', buttons })),
    },
  );
  const aView: fc.Arbitrary<MessageView> = fc.record(
    {
      audience: fc.constantFrom('member', 'everyone'),
      tone: fc.constantFrom('plain', 'calm', 'watch', 'remove', 'urgent'),
      blocks: fc.array(aBlock, { minLength: 1, maxLength: 80, size: 'max' }),
      foldedNotice: fc.constant({ markdown: '-# Shortened.' }),
    },
    { requiredKeys: ['audience', 'tone', 'blocks'] },
  );

  test('is rendered within the limits of Discord', () => {
    fc.assert(
      fc.property(aView, (each) => {
        const rendered = render(each);
        expectWithinLimits(rendered);
        expect(rendered.flags).toBe(each.audience === 'member' ? COMPONENTS_V2 | EPHEMERAL : COMPONENTS_V2);
        for (const content of textsOf(rendered)) expect(content.isWellFormed()).toBe(true);
        for (const label of labelsOf(contentsOf(rendered))) expect(String(label).isWellFormed()).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  const fewTexts = fc.array(
    fc.record({ length: fc.integer({ min: 1, max: 1_500 }), fold: fc.integer({ min: 0, max: 4 }) }),
    { minLength: 1, maxLength: 30, size: 'max' },
  );

  test('loses the blocks with the highest number first, and those with none only when they cannot fit', () => {
    fc.assert(
      fc.property(fewTexts, (rows) => {
        const blocks = rows.map(({ length, fold }, at) => ({ fold, body: `${at}:`.padEnd(length + 4, 'x') }));
        const shown = textsOf(render(view(blocks.map(({ body, fold }) => text(body, fold)))));
        const isGone = ({ body }: { body: string }) => !shown.includes(body);
        const lengthOf = (some: typeof blocks) => some.reduce((sum, { body }) => sum + body.length, 0);
        const never = blocks.filter(({ fold }) => fold === 0);
        if (lengthOf(never) <= 4_000) expect(never.filter(isGone)).toEqual([]);
        const gone = blocks.filter(({ fold }) => fold > 0).filter(isGone);
        if (lengthOf(blocks) <= 4_000) expect(gone).toEqual([]);
        const least = Math.min(...gone.map(({ fold }) => fold));
        expect(blocks.filter(({ fold }) => fold > least && fold > 0).filter((each) => !isGone(each))).toEqual([]);
        // What is kept keeps its order.
        const places = shown.map((body) => Number(body.split(':')[0]));
        expect(places).toEqual(places.toSorted((one, other) => one - other));
      }),
      { numRuns: 300 },
    );
  });
});

describe('one view', () => {
  test('becomes one container with its texts, rule and buttons in order', () => {
    const [container] = render(
      view([text('## Worm'), { kind: 'rule' }, { kind: 'buttons', buttons: [{ ...button('A'), style: 'danger' }] }], {
        tone: 'urgent',
      }),
    ).components;
    expect(container).toEqual({
      type: 17,
      accent_color: expect.any(Number),
      components: [
        { type: 10, content: '## Worm' },
        { type: 14, divider: true, spacing: 1 },
        { type: 1, components: [{ type: 2, style: 4, label: 'A', custom_id: '1:card:A' }] },
      ],
    });
  });

  test('nobody is pinged, whatever it says', () => {
    expect(render(view([text('@everyone')])).allowedMentions).toEqual({ parse: [], repliedUser: false });
  });

  test('each tone has its own colour', () => {
    const colours = (['plain', 'calm', 'watch', 'remove', 'urgent'] as const).map((tone) =>
      Reflect.get(render(view([text('a')], { tone })).components[0] ?? {}, 'accent_color'),
    );
    expect(new Set(colours).size).toBe(5);
  });

  test('the notice stands before the last text once something is left out, and only then', () => {
    const foldedNotice = { markdown: 'shortened' };
    const long = [text('a'.repeat(3_000)), text('b'.repeat(2_000), 1), text('last')];
    expect(textsOf(render(view(long, { foldedNotice }))).slice(1)).toEqual(['shortened', 'last']);
    expect(textsOf(render(view(long.slice(1), { foldedNotice })))).toHaveLength(2);
  });

  test('exactly 4000 characters fit, one more does not', () => {
    const exact = [text('a'.repeat(2_000)), text('b'.repeat(2_000), 1)];
    expect(textsOf(render(view(exact)))).toHaveLength(2);
    expect(textsOf(render(view([...exact, text('c')])))).toEqual(['a'.repeat(2_000), 'c']);
  });

  test('texts that may not be left out are cut with a mark when they are too long together', () => {
    const shown = textsOf(render(view(['a', 'b', 'c'].map((letter) => text(letter.repeat(3_000))))));
    expect(shown.join('').length).toBeLessThanOrEqual(4_000);
    expect(shown.map((body) => body[0])).toContain('c');
    expect(shown.some((body) => body.endsWith('…'))).toBe(true);
  });

  test('a cut leaves no half of an escape or of a sign', () => {
    for (const extra of [0, 1, 2, 3]) {
      const [escaped = ''] = textsOf(render(view([text(`${'x'.repeat(extra)}${'\\*'.repeat(2_500)}`)])));
      expect(escaped).toMatch(/^x*(\\\*)+…$/);
      const [crabs = ''] = textsOf(render(view([text(`${'x'.repeat(extra)}${'🦀'.repeat(2_500)}`)])));
      expect(crabs).toMatch(/^x*(🦀)+…$/u);
    }
  });

  test('texts without a word are left out', () => {
    expect(textsOf(render(view([text('a'), text('  \n '), text('')])))).toEqual(['a']);
  });

  test('five buttons make a row, a sixth begins the next', () => {
    const buttons = ['A', 'B', 'C', 'D', 'E', 'F'].map((label) => button(label));
    const rows = contentsOf(render(view([text('a'), { kind: 'buttons', buttons }]))).filter(isRow);
    expect(rows.map((row) => labelsOf([row]))).toEqual([['A', 'B', 'C', 'D', 'E'], ['F']]);
  });

  test('a button that stands there already is left out, in its own row and in later ones', () => {
    const parts = contentsOf(
      render(
        view([
          { kind: 'buttons', buttons: [button('A', 'same'), button('B', 'same'), button('C')] },
          { kind: 'buttons', buttons: [button('D', 'same'), button('E')] },
        ]),
      ),
    );
    expect(labelsOf(parts)).toHaveLength(3);
    expect(labelsOf(parts)).toEqual(expect.arrayContaining(['C', 'E']));
  });

  test('a long label is cut to 80 characters with a mark', () => {
    const [row] = contentsOf(render(view([{ kind: 'buttons', buttons: [button('x'.repeat(81), 'x')] }])));
    const [only] = (row && 'components' in row ? row.components : []) as APIButtonComponentWithCustomId[];
    expect(only?.label).toBe(`${'x'.repeat(79)}…`);
  });

  test('of 60 buttons as many stay as 40 components allow', () => {
    const buttons = Array.from({ length: 60 }, (_, at) => button(`b${at}`));
    const rendered = render(view([text('a'), { kind: 'buttons', buttons }]));
    expectWithinLimits(rendered);
    expect(countOf(rendered)).toBe(40);
    expect(labelsOf(contentsOf(rendered))).toEqual(buttons.slice(0, 31).map(({ label }) => label));
  });
});
