import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { innerShape, netVolume, shapeL, type TankShape } from '../../shared/net-volume.ts';
import { expectPass, told, workedCases } from '../reference/worked-cases.ts';

/** Exact by definition: 231 cubic inches, 2.54 cm each (NIST Special Publication 811). */
const L_PER_US_GAL = (231 * 2.54 ** 3) / 1000;
const CM_PER_IN = 2.54;

describe('worked cases', () => {
  test.each(workedCases('tank_box'))('$id $output', (row) => {
    const { number, output } = row;
    const outer = { kind: 'box', lengthCm: number('outer_length_cm'), widthCm: number('outer_width_cm') } as const;
    const shape = { ...outer, waterDepthCm: number('water_depth_cm') };
    const { grossL, netL } = told(
      netVolume({
        shape,
        glassCm: number('glass_cm'),
        rockKg: number('rock_kg'),
        rockDensityKgPerL: number('rock_density_kg_L'),
        sandKg: number('sand_kg'),
        sandDensityKgPerL: number('sand_density_kg_L'),
        sumpL: number('sump_water_L'),
      }),
      'volume',
    );
    const got: Record<string, number> = {
      display_gross_L: grossL,
      nominal_outer_L: shapeL({ ...outer, waterDepthCm: number('outer_height_cm') }),
      net_L: netL,
      net_US_gal: netL / L_PER_US_GAL,
    };
    expectPass(row, got[output]);
  });

  test.each(workedCases('tank_box_inches'))('$id $output', (row) => {
    const cm = (key: string) => row.number(key) * CM_PER_IN;
    const litres = shapeL({
      kind: 'box',
      lengthCm: cm('inner_length_in'),
      widthCm: cm('inner_width_in'),
      waterDepthCm: cm('water_depth_in'),
    });
    expectPass(row, row.output === 'volume_L' ? litres : litres / L_PER_US_GAL);
  });

  test.each(workedCases('tank_cylinder'))('$id $output', (row) => {
    const diameterCm = row.number('inner_diameter_cm');
    expectPass(row, shapeL({ kind: 'cylinder', diameterCm, waterDepthCm: row.number('water_depth_cm') }));
  });

  test.each(workedCases('tank_hexagon'))('$id $output', (row) => {
    const sideCm = row.number('inner_side_cm');
    expectPass(row, shapeL({ kind: 'hexagon', sideCm, waterDepthCm: row.number('water_depth_cm') }));
  });

  test.each(workedCases('tank_quarter_cylinder'))('$id $output', (row) => {
    const radiusCm = row.number('inner_radius_cm');
    expectPass(row, shapeL({ kind: 'quarter-cylinder', radiusCm, waterDepthCm: row.number('water_depth_cm') }));
  });

  test.each(workedCases('tank_bow_front'))('$id $output', (row) => {
    const shape = {
      kind: 'bow-front',
      lengthCm: row.number('inner_length_cm'),
      widthCm: row.number('inner_side_depth_cm'),
      bowCm: row.number('bow_beyond_sides_cm'),
      waterDepthCm: row.number('water_depth_cm'),
    } as const;
    expectPass(row, shapeL(shape));
  });
});

const cm = fc.double({ min: 20, max: 200, noNaN: true });

describe('shapes', () => {
  test('a bow front without a bow is a box; a bow of half its length is a box and half a cylinder', () => {
    fc.assert(
      fc.property(cm, cm, cm, (lengthCm, widthCm, waterDepthCm) => {
        const box = shapeL({ kind: 'box', lengthCm, widthCm, waterDepthCm });
        expect(shapeL({ kind: 'bow-front', lengthCm, widthCm, bowCm: 0, waterDepthCm })).toBe(box);
        const half = shapeL({ kind: 'cylinder', diameterCm: lengthCm, waterDepthCm }) / 2;
        const round = shapeL({ kind: 'bow-front', lengthCm, widthCm, bowCm: lengthCm / 2, waterDepthCm });
        expect(round / (box + half)).toBeCloseTo(1, 9);
      }),
    );
  });

  test('two panes off a hexagon take two panes off what lies between opposite sides', () => {
    const between = (shape: TankShape) => (shape.kind === 'hexagon' ? shape.sideCm * Math.sqrt(3) : 0);
    const outer: TankShape = { kind: 'hexagon', sideCm: 35, waterDepthCm: 50 };
    expect(between(outer) - between(innerShape(outer, 1))).toBeCloseTo(2, 12);
  });
});

describe('uncertainty', () => {
  test('is that of lengths drawn at random, to a few per cent', () => {
    const shape = { kind: 'box', lengthCm: 118, widthCm: 48, waterDepthCm: 45 } as const;
    const lengthErrorCm = 0.5;
    const { netL, errorL } = told(netVolume({ shape, lengthErrorCm }), 'volume');
    // A linear congruence gives the same numbers on every run.
    let seed = 1;
    const uniform = () => (seed = (seed * 48_271) % 2_147_483_647) / 2_147_483_647;
    const off = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()) * lengthErrorCm;
    const drawn = Array.from({ length: 20_000 }, () =>
      shapeL({ kind: 'box', lengthCm: 118 + off(), widthCm: 48 + off(), waterDepthCm: 45 + off() }),
    );
    const spread = Math.sqrt(drawn.reduce((sum, each) => sum + (each - netL) ** 2, 0) / drawn.length);
    expect(errorL / spread).toBeGreaterThan(0.97);
    expect(errorL / spread).toBeLessThan(1.03);
  });

  test('of what rock pushes aside comes on top, in quadrature', () => {
    const shape = { kind: 'box', lengthCm: 100, widthCm: 50, waterDepthCm: 40 } as const;
    const rock = { rockKg: 27, rockDensityKgPerL: 2.7, displacedErrorFraction: 0.3 };
    expect(told(netVolume({ shape, ...rock }), 'volume').errorL).toBeCloseTo(3, 9);
    const both = told(netVolume({ shape, ...rock, lengthErrorCm: 0.5 }), 'volume').errorL;
    expect(both).toBeCloseTo(Math.hypot(3, 1, 2, 2.5), 9);
  });
});

test('more rock than tank is told, not computed', () => {
  const shape = { kind: 'box', lengthCm: 30, widthCm: 30, waterDepthCm: 30 } as const;
  expect(netVolume({ shape, rockKg: 100, rockDensityKgPerL: 2.7 }).kind).toBe('more-rock-than-tank');
});

test.each([
  [{ shape: { kind: 'box', lengthCm: 0, widthCm: 50, waterDepthCm: 40 } as const }, 'lengthCm'],
  [{ shape: { kind: 'box', lengthCm: 50, widthCm: 50, waterDepthCm: -1 } as const }, 'waterDepthCm'],
  // Panes thicker than the tank leave nothing inside.
  [{ shape: { kind: 'box', lengthCm: 12, widthCm: 50, waterDepthCm: 40 } as const, glassCm: 6 }, 'lengthCm'],
  [{ shape: { kind: 'box', lengthCm: 90, widthCm: 50, waterDepthCm: 40 } as const, glassCm: 60 }, 'glassCm'],
  [{ shape: { kind: 'cylinder', diameterCm: NaN, waterDepthCm: 40 } as const }, 'diameterCm'],
  [{ shape: { kind: 'cylinder', diameterCm: 60, waterDepthCm: 40 } as const, rockKg: -3 }, 'rockKg'],
])('%j is refused for its %s', (input, quantity) => {
  expect(netVolume(input)).toMatchObject({ kind: 'out-of-range', quantity });
});

test('rock without its density is a mistake of ours', () => {
  const shape = { kind: 'cylinder', diameterCm: 60, waterDepthCm: 40 } as const;
  expect(() => netVolume({ shape, rockKg: 3 })).toThrow(RangeError);
});
