import { crc32, deflateSync } from 'node:zlib';

// A photo for the demo club, drawn by arithmetic: a worm with white tufts, half out of its hole, by torch light.

const WIDTH = 480;
const HEIGHT = 320;
type Colour = [number, number, number];

/** The picture as PNG. It is the same at every start. */
export function drawDemoPhoto(): Buffer {
  const rows = Buffer.alloc(HEIGHT * (1 + WIDTH * 3));
  for (let y = 0; y < HEIGHT; y += 1) {
    for (let x = 0; x < WIDTH; x += 1) {
      const at = y * (1 + WIDTH * 3) + 1 + x * 3;
      colourAt(x, y).forEach((value, channel) =>
        rows.writeUInt8(Math.max(0, Math.min(255, Math.round(value))), at + channel),
      );
    }
  }
  return png(rows);
}

/** How bright, then what stands there: rock, hole, tufts, or the segments of the worm. */
function colourAt(x: number, y: number): Colour {
  const grain = noise(x, y) * 10 + smoothNoise(x / 26, y / 26) * 46;
  const torch = 1.25 - Math.hypot(x - 250, y - 170) / 330;
  const { along, across } = wormAt(x, y);
  let colour: Colour = [78 + grain, 66 + grain * 0.8, 84 + grain * 0.9];
  const hole = Math.hypot((x - 96) / 1.3, y - 214);
  if (hole < 34) colour = [16, 13, 18];
  if (along >= 0 && along <= 1) {
    // Narrow towards the head, which ends round.
    const half = (17 - along * 9) * Math.sqrt(Math.max(0, Math.min(1, (1 - along) * 14)));
    const segment = Math.sin(along * 88);
    const tuft = half + (8 + 4 * noise(Math.round(along * 290), Math.sign(across))) * (1 - along ** 6);
    if (Math.abs(across) < tuft && segment > 0.2) colour = [214, 210, 202];
    if (Math.abs(across) < half) {
      const round = 1 - (across / half) ** 2 * 0.55;
      const ring = segment < -0.75 ? 0.72 : 1;
      colour = [206 * round * ring, 118 * round * ring, 92 * round * ring];
    }
  }
  // The body comes out of the dark of its hole.
  const shadow = hole < 40 && along < 0.16 ? Math.max(0.08, Math.min(1, along / 0.16)) : 1;
  colour = colour.map((value) => value * shadow) as Colour;
  return colour.map((value) => value * torch + noise(y, x) * 8) as Colour;
}

/** Where a point lies in respect of the worm's curved middle line. */
function wormAt(x: number, y: number): { along: number; across: number } {
  const along = (x - 92) / 290;
  const middle = 214 - 96 * along + 34 * Math.sin(along * 5.4);
  const slope = (-96 + 34 * 5.4 * Math.cos(along * 5.4)) / 290;
  return { along, across: (y - middle) / Math.hypot(1, slope) };
}

/** A number from -0.5 to 0.5 that belongs to a point. */
function noise(x: number, y: number): number {
  const mixed = Math.sin(x * 127.1 + y * 311.7) * 43_758.5453;
  return mixed - Math.floor(mixed) - 0.5;
}

function smoothNoise(x: number, y: number): number {
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const ease = (t: number) => t * t * (3 - 2 * t);
  const mix = (a: number, b: number, t: number) => a + (b - a) * t;
  const row = (at: number) => mix(noise(left, at), noise(left + 1, at), ease(x - left));
  return mix(row(top), row(top + 1), ease(y - top));
}

function png(rows: Buffer): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(WIDTH, 0);
  header.writeUInt32BE(HEIGHT, 4);
  // Eight bits a channel, red, green and blue.
  header.set([8, 2, 0, 0, 0], 8);
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const frame = Buffer.alloc(8);
    frame.writeUInt32BE(data.length, 0);
    frame.writeUInt32BE(crc32(body), 4);
    return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
  };
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
