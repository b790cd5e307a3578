import { inUnits } from '../calculators/units-in-words.ts';
import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Tank, TankUnits } from '../tanks/tank.ts';
import { known, parameterOf } from './known.ts';

/** A quantity as it was read: its value in the unit in which it is kept. */
export type Known = { si: number };
export type TypedWater = { volume?: Known | undefined; salinity?: Known | undefined; temperature?: Known | undefined };

/** The water that an answer is about. Each line says what was taken for it, and from where, when it was not typed. */
export type TankWater = {
  /** Null when nobody has said. */
  volumeL: number | null;
  practicalSalinity: number;
  temperatureC: number;
  /** How far the volume may be off, as a share. */
  volumeError: number;
  units: TankUnits;
  lines: Readonly<Record<'volume' | 'salinity' | 'temperature', readonly Markdown[]>>;
};

/** What was typed, what the tank keeps, and the middle of what keepers aim for, in this order. */
export function tankWater(base: KnowledgeBase, typed: TypedWater, tank: Tank | null, units: TankUnits): TankWater {
  const saltiness = pick(typed.salinity, tank?.practicalSalinity, parameterOf(base, 'salinity'));
  const warmth = pick(typed.temperature, tank?.temperatureC, parameterOf(base, 'temperature'));
  const kept = (what: string, shown: string) => [md`${what}: ${shown}, as kept for **${tank?.name ?? ''}**`];
  const said = (what: string, { from }: Picked, shown: string): Markdown[] => {
    if (from === 'typed') return [];
    return from === 'tank' ? kept(what, shown) : [md`${what}: ${shown}, **assumed**; you gave none`];
  };
  return {
    volumeL: typed.volume?.si ?? tank?.netVolumeL ?? null,
    practicalSalinity: saltiness.value,
    temperatureC: warmth.value,
    volumeError: typed.volume || !tank ? known(base, 'net-volume', 'typed-error').high / 100 : tank.volumeError,
    units,
    lines: {
      volume: typed.volume || !tank ? [] : kept('volume', inUnits(tank.netVolumeL, 'volume', units)),
      salinity: said('salinity', saltiness, inUnits(saltiness.value, 'salinity', units)),
      temperature: said('temperature', warmth, inUnits(warmth.value, 'temperature', units)),
    },
  };
}

type Picked = { value: number; from: 'typed' | 'tank' | 'usual' };

function pick(typed: Known | undefined, kept: number | null | undefined, usual: Parameter): Picked {
  if (typed) return { value: typed.si, from: 'typed' };
  if (kept !== null && kept !== undefined) return { value: kept, from: 'tank' };
  return { value: middleOf(usual), from: 'usual' };
}

/** The middle of what keepers aim for. */
export function middleOf({ id, target }: Parameter): number {
  if (!target) throw new RangeError(`knowledge/parameters/${id}.yaml has no target`);
  return (target.low + target.high) / 2;
}

/** A span around an amount that goes by the volume: what a reading may be off, and what the volume may be, in quadrature. */
export function spanOf(
  amount: number,
  byReading: readonly number[],
  { volumeError }: TankWater,
): readonly [number, number] {
  const half = (Math.max(...byReading) - Math.min(...byReading)) / 2;
  const off = Math.hypot(half, amount * volumeError);
  return [Math.max(0, amount - off), amount + off];
}
