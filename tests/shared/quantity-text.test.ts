import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readQuantity, type QuantityOutcome, type Wanted } from '../../shared/quantity-text.ts';
import { UNIT_TABLES, unitsOf } from '../../shared/units/tables.ts';
import { SPECIES, type Quantity } from '../../shared/units/unit.ts';

const VOLUME: Wanted = { quantity: 'volume', least: 1, most: 20_000 };
const of = (quantity: Exclude<Quantity, 'concentration'>): Wanted => ({ quantity });
const kit = (species: (typeof SPECIES)[number]): Wanted => ({ quantity: 'concentration', species });

/** What a reading says of itself, for a table of examples. */
const said = (outcome: QuantityOutcome) => (outcome.kind === 'read' ? outcome.understood : outcome);

describe('what keepers write', () => {
  test.each([
    // Volume.
    ['80 gal', VOLUME, '80 US gal = 303 L'],
    ['80 gals', VOLUME, '80 US gal = 303 L'],
    ['80 U.S. gallons', VOLUME, '80 US gal = 303 L'],
    ['80 uk gal', VOLUME, '80 imp gal = 364 L'],
    ['80 imperial gallons', VOLUME, '80 imp gal = 364 L'],
    ['80 gal (UK)', VOLUME, '80 imp gal = 364 L'],
    ['80gal', { ...VOLUME, gallon: 'imp gal' }, '80 imp gal = 364 L'],
    ['303 ltr', VOLUME, '303 L'],
    ['303 Litres.', VOLUME, '303 L'],
    ['1,000 l', VOLUME, '1000 L'],
    ['1 000 L', VOLUME, '1000 L'],
    ['1\u202f000\u00a0L', VOLUME, '1000 L'],
    ['1.000,5 l', VOLUME, '1000.5 L'],
    ["1'200 l", VOLUME, '1200 L'],
    ['about 80 gallons', VOLUME, '80 US gal = 303 L'],
    ['ca. 300 L', VOLUME, '300 L'],
    ['volume: 300 L', VOLUME, '300 L'],
    ['2 m³', VOLUME, '2 m³ = 2000 L'],
    ['1e3 l', VOLUME, '1000 L'],
    // Alkalinity.
    ['7,5 dkh', of('alkalinity'), '7.5 dKH'],
    ['7,500 dkh', of('alkalinity'), '7.5 dKH'],
    ['8 °dKH', of('alkalinity'), '8 dKH'],
    ['kh 8', of('alkalinity'), '8 dKH'],
    ['Alk: 8 dKH', of('alkalinity'), '8 dKH'],
    ['2.8 meq', of('alkalinity'), '2.8 meq/L = 7.85 dKH'],
    ['2.8 mmol/L', of('alkalinity'), '2.8 mmol/L = 7.85 dKH'],
    ['140 ppm', of('alkalinity'), '140 ppm CaCO3 = 7.84 dKH'],
    ['140 mg/l as CaCO₃', of('alkalinity'), '140 ppm CaCO3 = 7.84 dKH'],
    // Salinity. SG 1.02637 at 25/25 is S 35: tests/reference/specific-gravity.csv.
    ['35ppt', of('salinity'), '35 ppt'],
    ['35 psu', of('salinity'), '35 ppt'],
    ['35‰', of('salinity'), '35 ppt'],
    ['35.165 g/kg', of('salinity'), '35.165 g/kg = 35 ppt'],
    ['1.0265', of('salinity'), '1.0265 SG 25/25 = 35.2 ppt'],
    ['1,0265', of('salinity'), '1.0265 SG 25/25 = 35.2 ppt'],
    ['1,026', of('salinity'), '1.026 SG 25/25 = 34.5 ppt'],
    ['1.0265 sg', of('salinity'), '1.0265 SG 25/25 = 35.2 ppt'],
    ['sg 1.0265', of('salinity'), '1.0265 SG 25/25 = 35.2 ppt'],
    ['1.0266 20/20', of('salinity'), '1.0266 SG 20/20 = 35 ppt'],
    ['1.0269 sg 60F', of('salinity'), '1.0269 SG 60F/60F = 35.1 ppt'],
    ['1.0269 sg 60/60', of('salinity'), '1.0269 SG 60F/60F = 35.1 ppt'],
    // The warm reading of a 60 °F hydrometer that README of the file names: 1.02435 is S 35.
    ['1.02435 sg 25C/60F', of('salinity'), '1.02435 SG 25C/60F = 35 ppt'],
    ['1.02435 25/60F', of('salinity'), '1.02435 SG 25C/60F = 35 ppt'],
    ['53 mS/cm', of('salinity'), '53 mS/cm = 34.9 ppt'],
    ['53000 µS/cm', of('salinity'), '53000 µS/cm = 34.9 ppt'],
    // Temperature.
    ['78f', of('temperature'), '78 °F = 25.6 °C'],
    ['78 deg F', of('temperature'), '78 °F = 25.6 °C'],
    ['25ºC', of('temperature'), '25 °C'],
    ['25,5 ℃', of('temperature'), '25.5 °C'],
    // Kits.
    ['420 ppm', kit('Ca'), '420 mg/L Ca'],
    ['Ca²⁺ 420', kit('Ca'), '420 mg/L Ca'],
    ['1050 ppm CaCO3', kit('Ca'), '1050 mg/L CaCO3 = 420 mg/L Ca'],
    ['1,350 ppm', kit('Mg'), '1350 mg/L Mg'],
    ['Mg 1350', kit('Mg'), '1350 mg/L Mg'],
    ['5 NO3-N', kit('NO3'), '5 mg/L NO3-N = 22.1 mg/L NO3'],
    ['NO3: 5 ppm', kit('NO3'), '5 mg/L NO3'],
    ['0.03 ppm P', kit('PO4'), '0.03 mg/L PO4-P = 0.092 mg/L PO4'],
    ['30 ppb P', kit('PO4'), '30 µg/L PO4-P = 0.092 mg/L PO4'],
    ['0,025 ppm', kit('PO4'), '0.025 mg/L PO4'],
    // 2 × 94.970 g PO4 in 141.943 g P2O5.
    ['1 mg/L P2O5', kit('PO4'), '1 mg/L P2O5 = 1.34 mg/L PO4'],
    ['PO₄³⁻ 0.1 mg/L', kit('PO4'), '0.1 mg/L PO4'],
    ['0.5 ppm NH3', kit('NH3-N'), '0.5 mg/L NH3 = 0.411 mg/L NH3-N'],
    ['0.5 ppm ammonia', kit('NH3-N'), '0.5 mg/L NH3-N'],
    // The rest.
    ['1 lb', of('mass'), '1 lb = 454 g'],
    ['2 tsp at 1.1 g/mL', of('mass'), '2 level US tsp at 1.1 g/mL = 10.8 g'],
    ['pH 8,2', of('ph'), 'pH 8.2'],
    ['350 PAR', of('light'), '350 µmol/m²/s'],
    ['350 µmol m-2 s-1', of('light'), '350 µmol/m²/s'],
    ['800 gph', of('flow'), '800 US gph = 3030 L/h'],
    // 600 gallons an hour of 3.785411784 L, or of 4.54609 L.
    ['10 gpm', of('flow'), '10 US gpm = 2270 L/h'],
    ['10 uk gal/min', of('flow'), '10 imp gpm = 2730 L/h'],
    ['3000 litres per hour', of('flow'), '3000 L/h'],
    ['24"', of('length'), '24 in = 61 cm'],
    ['90 min', of('duration'), '90 min = 1.5 h'],
    ['95 percent', of('percent'), '95%'],
    ['50 g per litre', of('strength'), '50 g/L'],
    ['5% w/v', of('strength'), '5 g/100 mL = 50 g/L'],
  ] satisfies [string, Wanted, string][])('%s', (text, wanted, understood) => {
    expect(said(readQuantity(text, wanted))).toEqual(understood);
  });

  test('says what it took for granted', () => {
    const notes = (text: string, wanted: Wanted) => {
      const outcome = readQuantity(text, wanted);
      return outcome.kind === 'read' ? outcome.notes : outcome;
    };
    expect(notes('80 gal', VOLUME)).toEqual(['us-measure-assumed']);
    expect(notes('80 gal', { ...VOLUME, gallon: 'imp gal' })).toEqual(['imperial-measure-assumed']);
    expect(notes('80 us gal', VOLUME)).toEqual([]);
    expect(notes('1,000 l', VOLUME)).toEqual(['comma-as-thousands']);
    expect(notes('140 ppm', of('alkalinity'))).toEqual(['ppm-as-caco3']);
    expect(notes('1.0265', of('salinity'))).toEqual(['unit-assumed', 'sg-at-25']);
    expect(notes('1.0265 sg 60F', of('salinity'))).toEqual([]);
    expect(notes('420 mg/kg', kit('Ca'))).toEqual(['usual-density']);
    expect(notes('420 mg/kg', { ...kit('Ca'), densityKgPerL: 1.02 })).toEqual([]);
    expect(notes('0.5 mg/L NH3', kit('NH3-N'))).toEqual(['ammonia-is-all']);
    expect(notes('0.25', kit('NH3-N'))).toEqual(['unit-assumed', 'ammonia-as-nitrogen']);
  });

  test.each([
    ['300', { ...VOLUME, unit: 'imp gal', gallon: 'imp gal' }, '300 imp gal'],
    ['8', of('alkalinity'), '8 dKH'],
    ['140', { ...of('alkalinity'), unit: 'ppm CaCO3' }, '140 ppm CaCO3'],
    ['78', { ...of('temperature'), unit: '°F' }, '78 °F'],
    ['1.026', { ...of('salinity'), unit: 'SG 60F/60F' }, '1.026 SG 60F/60F'],
    ['35', { ...of('salinity'), unit: 'SG 25/25' }, '35 ppt'],
    ['52', { ...of('salinity'), unit: 'mS/cm' }, '52 mS/cm'],
  ] satisfies [string, Wanted, string][])('a bare %s takes the usual unit, and says so', (text, wanted, start) => {
    const outcome = readQuantity(text, wanted);
    expect(outcome).toMatchObject({ kind: 'read', assumedUnit: true });
    expect(said(outcome)).toSatisfy((understood: string) => understood.startsWith(start));
  });
});

describe('what cannot be used', () => {
  test.each([
    ['', 'unreadable', { why: 'empty', readAs: null }],
    ['  \u200b ', 'unreadable', { why: 'empty' }],
    ['x'.repeat(2000), 'unreadable', { why: 'too-long' }],
    ['9'.repeat(2000), 'unreadable', { why: 'too-long' }],
    ['lots', 'unreadable', { why: 'no-number' }],
    ['NaN', 'unreadable', { why: 'no-number' }],
    ['Infinity L', 'unreadable', { why: 'no-number' }],
    ['1,2,3 L', 'unreadable', { why: 'garbled-number' }],
    ['1/2 gal', 'unreadable', { why: 'fraction' }],
    ['1½ gal', 'unreadable', { why: 'fraction' }],
    ['80-90 gal', 'unreadable', { why: 'range' }],
    ['80 gal to 90 gal', 'unreadable', { why: 'range' }],
    ['80 ± 5 L', 'unreadable', { why: 'range' }],
    ['<80 L', 'unreadable', { why: 'range' }],
    ['80 20', 'unreadable', { why: 'two-numbers' }],
    ['80 gal 20 L', 'unreadable', { why: 'two-numbers' }],
    ['60 x 40 x 40 cm', 'unreadable', { why: 'two-numbers' }],
    ['80 gal = 20 L', 'unreadable', { why: 'two-numbers' }],
    ['80 bananas', 'unreadable', { why: 'unknown-unit', readAs: '80' }],
    ['10³ L', 'unreadable', { why: 'unknown-unit' }],
    ['80 dKH', 'wrong-unit', { unitOf: 'alkalinity', readAs: '80 dKH' }],
    ['75g', 'wrong-unit', { unitOf: 'mass', readAs: '75 g' }],
    ['0', 'out-of-range', { given: 0, readAs: '0 L' }],
    ['-5 L', 'out-of-range', { given: -5, readAs: '-5 L' }],
    ['−5 L', 'out-of-range', { given: -5 }],
    ['1e400', 'out-of-range', { given: Infinity }],
    ['99999 gal', 'out-of-range', { readAs: '99999 US gal' }],
  ])('%.20s', (text, kind, more) => {
    expect(readQuantity(text, VOLUME)).toMatchObject({
      kind,
      quantity: 'volume',
      least: 1,
      most: 20_000,
      allowed: '1 to 20000 L',
      example: '300 L',
      ...more,
    });
  });

  test('phosphate in ppb without P or PO4 is asked about, since the two are three times apart', () => {
    expect(readQuantity('30 ppb', kit('PO4'))).toMatchObject({
      kind: 'unreadable',
      why: 'which-unit',
      choices: ['µg/L PO4', 'µg/L PO4-P'],
    });
    for (const choice of ['µg/L PO4', 'µg/L PO4-P']) {
      expect(readQuantity(`30 ${choice}`, kit('PO4'))).toMatchObject({ kind: 'read' });
    }
  });

  test('a spoon is a weight only with a density', () => {
    expect(readQuantity('2 tsp', of('mass'))).toMatchObject({ kind: 'unreadable', why: 'no-density' });
    expect(readQuantity('2 tsp at 40 g/mL', of('mass'))).toMatchObject({ kind: 'unreadable', why: 'no-density' });
    // 2 × 4.92892159375 mL × 1.1 g/mL; 2 × 5 mL × 1.1 g/mL.
    const density = { ...of('mass'), spoonDensityGPerMl: 1.1 };
    expect(readQuantity('2 tsp', density)).toMatchObject({ si: expect.closeTo(10.84362750625, 10) as number });
    expect(readQuantity('2 tsp', { ...density, gallon: 'imp gal' })).toMatchObject({
      si: expect.closeTo(11, 10) as number,
      notes: ['metric-spoon-assumed', 'spoon'],
    });
  });

  test('a bare number that makes sense in another unit is asked about', () => {
    expect(readQuantity('78', of('temperature'))).toMatchObject({ kind: 'out-of-range', perhaps: '78 °F' });
    expect(readQuantity('53', of('salinity'))).toMatchObject({ kind: 'out-of-range', perhaps: '53 mS/cm' });
    expect(readQuantity('78 °C', of('temperature'))).toMatchObject({ kind: 'out-of-range', perhaps: null });
  });

  test.each(['1.9 ppt', '43 ppt', '0.9 sg', '1.2', '200 mS/cm', '-1 ppt'])('salinity of %s', (text) => {
    expect(readQuantity(text, of('salinity'))).toMatchObject({ kind: 'out-of-range', allowed: '2 to 42 ppt' });
  });

  test('the range is told in the member’s unit', () => {
    const allowed = (wanted: Wanted) => {
      const outcome = readQuantity('?', wanted);
      return outcome.kind === 'read' ? '' : `${outcome.allowed}, as ${outcome.example}`;
    };
    expect(allowed({ ...VOLUME, unit: 'US gal' })).toBe('0.264 to 5280 US gal, as 79 US gal');
    expect(allowed({ ...of('salinity'), unit: 'SG 25/25' })).toBe('1.0015 to 1.0317 SG 25/25, as 1.0264 SG 25/25');
    expect(allowed({ ...of('temperature'), unit: '°F' })).toBe('32 to 104 °F, as 77 °F');
  });
});

const anyWanted: fc.Arbitrary<Wanted> = fc.oneof(
  fc.constantFrom(...SPECIES).map(kit),
  fc
    .constantFrom(...(Object.keys(UNIT_TABLES) as Quantity[]).filter((each) => each !== 'concentration'))
    .map((each) => of(each as Exclude<Quantity, 'concentration'>)),
);
/** An amount with a unit that its quantity knows, in one of many spellings. */
const likely = anyWanted.chain((wanted) =>
  fc
    .tuple(
      fc.oneof(
        fc.double({ min: -10, max: 2000, noNaN: true }).map(String),
        fc.constantFrom('1,000', '7,5', '1.026', '.5', '1 200', '8', '35', '1.000,5'),
      ),
      fc.constantFrom('', ' ', '  ', '\u00a0'),
      fc.constantFrom('', 'gal', ...unitsOf(wanted.quantity, { gallon: 'US gal', ...wanted }).map(({ id }) => id)),
    )
    .map(([amount, space, unit]) => ({ text: `${amount}${space}${unit}`, wanted })),
);
/** Pieces of what people type, in any order. */
const nearly = fc
  .array(
    fc.constantFrom(
      ...[
        '80',
        '1,000',
        '1.026',
        '.5',
        '-',
        '+',
        ' ',
        ' = ',
        'gal',
        'L',
        'us',
        'sg',
        '60F',
        '/',
        'ppm',
        'P',
        'no3',
        'e9',
      ],
      ...[
        'at',
        'tsp',
        'g/mL',
        '°',
        'µ',
        '³',
        '½',
        ',',
        '.',
        'to',
        '±',
        '\u0000',
        '\ud800',
        '\u202e',
        'ca',
        'mg',
        'kh',
        '1e',
      ],
    ),
    { maxLength: 30 },
  )
  .map((pieces) => pieces.join(''));

describe('any text at all', () => {
  test('never throws, and leaves nothing out of its answer', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string(), nearly), anyWanted, (text, wanted) => {
        const outcome = readQuantity(text, wanted);
        if (outcome.kind === 'read') {
          expect(Number.isFinite(outcome.si)).toBe(true);
          expect(outcome.understood).not.toMatch(/NaN|Infinity|undefined/);
          return;
        }
        expect(outcome.came.length).toBeLessThanOrEqual(40);
        expect(outcome.came.isWellFormed()).toBe(true);
        expect(outcome.allowed).toMatch(/\d/);
        expect(readQuantity(outcome.example, wanted).kind).toBe('read');
      }),
      { numRuns: 5000 },
    );
  });

  test('what was understood reads as the same value', () => {
    let readings = 0;
    fc.assert(
      fc.property(likely, ({ text, wanted }) => {
        const first = readQuantity(text, wanted);
        if (first.kind !== 'read') return;
        readings += 1;
        expect(readQuantity(first.understood, wanted)).toMatchObject({
          kind: 'read',
          si: first.si,
          understood: first.understood,
        });
      }),
      { numRuns: 5000 },
    );
    expect(readings).toBeGreaterThan(2000);
  });

  test('is read, or not, in less than 5 ms', () => {
    const worst = [
      '1 000'.repeat(24),
      '1,000'.repeat(24),
      'a '.repeat(60),
      ' '.repeat(2000),
      '= '.repeat(60),
      '-'.repeat(120),
    ];
    for (const text of [...worst, ...worst.map((each) => each.slice(0, 119)), 'x'.repeat(1_000_000)]) {
      const start = performance.now();
      for (let turn = 0; turn < 20; turn += 1) readQuantity(text, kit('PO4'));
      expect((performance.now() - start) / 20).toBeLessThan(5);
    }
  });

  test.each((Object.keys(UNIT_TABLES) as Quantity[]).filter((quantity) => quantity !== 'concentration'))(
    'any range of %s has an example inside of it',
    (quantity) => {
      fc.assert(
        fc.property(
          fc.double({ min: 2, max: 30, noNaN: true }),
          fc.double({ min: 0.01, max: 5, noNaN: true }),
          (least, span) => {
            const wanted = { ...of(quantity as Exclude<Quantity, 'concentration'>), least, most: least + span };
            const refused = readQuantity('?', wanted);
            if (refused.kind === 'read') throw new Error('a question mark was read');
            expect(readQuantity(refused.example, wanted).kind).toBe('read');
          },
        ),
      );
    },
  );
});
