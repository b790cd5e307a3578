// The few SVG pieces that every drawing is made of. All of it is plain text: nothing here reads or writes a file.

export type Point = readonly [number, number];
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** A number with at most one decimal: short text, and the same text on every machine. */
export function round(value: number): string {
  const short = Math.round(value * 10) / 10;
  return Object.is(short, -0) ? '0' : String(short);
}

/** Text made safe to stand in SVG. */
export function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign] ?? sign);
}

/** Long decimals inside path data cut to one place. */
const shortened = (text: string) => text.replace(/-?\d+\.\d{2,}(e-?\d+)?/g, (number) => round(Number(number)));

/** One element. Attributes without a value are left out. */
export function tag(name: string, attributes: Attributes, inside = ''): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? round(value) : escaped(shortened(String(value)))}"`)
    .join('');
  return inside ? `<${name}${written}>${inside}</${name}>` : `<${name}${written}/>`;
}

/** A group of elements, moved, turned and scaled in that order. */
export function group(inside: string, place: { x?: number; y?: number; scale?: number; turn?: number }): string {
  const steps = [
    place.x || place.y ? `translate(${round(place.x ?? 0)} ${round(place.y ?? 0)})` : '',
    place.turn ? `rotate(${round(place.turn)})` : '',
    place.scale && place.scale !== 1 ? `scale(${round(place.scale * 100)}e-2)` : '',
  ].filter(Boolean);
  return tag('g', { transform: steps.length ? steps.join(' ') : undefined }, inside);
}

/** A point at a distance and angle from a centre; 0° points right and 90° down. */
export function polar(x: number, y: number, radius: number, degrees: number): Point {
  const angle = (degrees * Math.PI) / 180;
  return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
}

/** Numbers from 0 to 1 that look random and are the same every time for the same seed. */
export function chance(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 4294967296;
  };
}

/** Points strewn evenly over a room without a visible grid, the same every time. */
export function strewn(count: number, x: number, y: number, width: number, height: number): Point[] {
  return upTo(count).map((i): Point => [x + ((0.5 + i * 0.7549) % 1) * width, y + ((0.5 + i * 0.5698) % 1) * height]);
}

/** The whole numbers from 0 up to, but not including, the count. */
export function upTo(count: number): number[] {
  return Array.from({ length: Math.max(0, Math.round(count)) }, (_, index) => index);
}

/** Evenly spaced values from one end to the other, both included. */
export function steps(from: number, to: number, count: number): number[] {
  return upTo(count).map((index) => (count === 1 ? (from + to) / 2 : from + ((to - from) * index) / (count - 1)));
}
