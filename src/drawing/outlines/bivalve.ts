// Two shells: free and tied by threads, cemented down, with a mantle in the light, or only a slot in the rock.
import { curve } from '../curve.ts';
import { FILLS, ROCK } from '../ink.ts';
import { limb, type Parts, type Pen, type Sketch } from '../pen.ts';
import { steps, upTo, type Point } from '../svg.ts';

export type BivalveShape = { kind: 'box' | 'cemented' | 'mantle' | 'streamers' | 'slot' | 'pit' };

export function drawBivalve(pen: Pen, shape: BivalveShape): Sketch {
  const parts: Parts & { body: Point } = { body: [200, 150], shell: [200, 110], edge: [90, 168], mouth: [120, 166], base: [210, 254], side: [210, 240], foot: [210, 254], ground: [70, 294], skin: [200, 110], surface: [200, 110] }; // prettier-ignore
  const rock = pen.shape('M10 318V270Q110 250 200 258T390 264V318Z', ROCK, { 'stroke-width': 2 });
  if (shape.kind === 'slot' || shape.kind === 'pit') return doorInCoral(pen, shape.kind);
  if (shape.kind === 'mantle') return fluted(pen, rock, parts);
  const cemented = shape.kind === 'cemented';
  const upper = cemented
    ? curve([[84, 172], [92, 110], [150, 66], [230, 62], [300, 100], [320, 166], [200, 178]], true)
    : curve([[70, 150], [110, 84], [200, 70], [300, 78], [336, 150], [200, 160]], true); // prettier-ignore
  const lower = cemented
    ? 'M84 182Q200 196 320 178L346 262Q200 276 62 264Z'
    : curve([[70, 168], [200, 176], [336, 168], [300, 226], [200, 240], [110, 226]], true); // prettier-ignore
  const lines = [0.72, 0.46].map((s) => {
    const [middle, wide, tall] = cemented ? [202, 118, 100] : [203, 132, 70];
    const floor = cemented ? 170 : 152;
    return curve(steps(180, 360, 9).map((a): Point => [middle + Math.cos((a * Math.PI) / 180) * wide * s, floor + Math.sin((a * Math.PI) / 180) * tall * s])); // prettier-ignore
  });
  const leaves = cemented
    ? steps(192, 348, 10).map((a) => { const [x, y] = [202 + Math.cos((a * Math.PI) / 180) * 112, 166 + Math.sin((a * Math.PI) / 180) * 96]; const [tx, ty] = [202 + Math.cos((a * Math.PI) / 180) * 150, 166 + Math.sin((a * Math.PI) / 180) * 134]; return pen.shape(`M${x - 9} ${y + 6}L${tx} ${ty}L${x + 9} ${y + 6}Z`, pen.fill, { 'stroke-width': 2.4 }); }).join('') // prettier-ignore
    : '';
  const hairs = shape.kind === 'box' ? pen.line(steps(86, 320, 24).map((x) => `M${x} ${226 - Math.abs(x - 200) * 0.06}l${(x - 200) * 0.05} 17M${x} ${84 + Math.abs(x - 200) * 0.16}l${(x - 200) * 0.06} -15`).join(''), { 'stroke-width': 2 }) : ''; // prettier-ignore
  const threads = shape.kind === 'box' ? pen.line(steps(-60, 60, 7).map((x) => curve([[200, 236], [200 + x * 0.5, 252], [200 + x, 274]])).join(''), { 'stroke-width': 2.4 }) : ''; // prettier-ignore
  const streamers = shape.kind === 'streamers' ? steps(78, 330, 13).map((x, i) => limb(pen, curve([[x, 160], [x + (x - 200) * 0.2, 160 + (i % 2 ? 40 : -36)], [x + (x - 200) * 0.34 + 8, 160 + (i % 2 ? 86 : -78)]]), 5, '#fbe4dd')).join('') : ''; // prettier-ignore
  const gape = shape.kind === 'streamers' ? pen.oval(202, 159, 130, 16, FILLS.red) : '';
  if (shape.kind === 'streamers') parts.tentacles = parts.mantle = parts.edge = [76, 100];
  if (shape.kind === 'box') parts.base = parts.side = [220, 262];
  const ribs = shape.kind === 'streamers' ? pen.line(steps(-110, 110, 9).map((x) => `M${200 + x} 148L${200 + x * 0.4} 76M${200 + x} 172L${200 + x * 0.4} 238`).join(''), { 'stroke-width': 2, stroke: pen.detail }) : pen.line(lines.join(''), { 'stroke-width': 2, stroke: pen.detail }); // prettier-ignore
  const marks = rock + threads + hairs + leaves + pen.skin(lower) + pen.skin(upper) + ribs + gape + streamers;
  return { marks, parts, span: 260 };
}

function fluted(pen: Pen, rock: string, parts: Parts & { body: Point }): Sketch {
  const xs = steps(60, 340, 5);
  const wave = (y: number, tall: number) => xs.map((x, i): Point => [x, y + (i % 2 ? tall : -tall)]);
  const shell = (up: boolean) => curve([...wave(150, 16), [350, up ? 130 : 200], [280, up ? 100 : 262], [200, up ? 92 : 274], [120, up ? 100 : 262], [50, up ? 130 : 200]], true); // prettier-ignore
  const mantle = curve([...wave(132, 17), ...wave(190, 17).reverse()], true);
  const spots = upTo(24)
    .map((i) => pen.dot(66 + i * 11.8, 160 + ((i * 13) % 34) - 18, 5, pen.second))
    .join('');
  return {
    marks: rock + pen.shape(shell(true), '#e8dcc2') + pen.shape(shell(false), '#e8dcc2') + pen.line(xs.map((x) => `M${x} 190L${200 + (x - 200) * 0.6} 266`).join(''), { 'stroke-width': 2.4 }) + pen.skin(mantle) + pen.inside(mantle, spots) + pen.line(curve([[120, 160], [200, 164], [280, 158]]), { 'stroke-width': 7 }), // prettier-ignore
    parts: { ...parts, mantle: [110, 164], edge: [70, 150], surface: [110, 164], pattern: [110, 164] },
    span: 290,
  };
}

/** What shows of an animal that lives inside a coral: a pit with a crab, or a keyhole slot with two siphons. */
function doorInCoral(pen: Pen, kind: 'slot' | 'pit'): Sketch {
  const coral = pen.shape('M16 300V70Q110 30 200 40T384 66V300Q200 318 16 300Z', '#dcb9a0', { 'stroke-width': 2.4 });
  const cups = upTo(26).map((i) => pen.oval(44 + ((i * 67) % 320), 64 + Math.floor((i * 67) / 320) * 44, 12, 8, '#c79d83', { 'stroke-width': 1.4 })).join(''); // prettier-ignore
  if (kind === 'slot') {
    const slot =
      'M200 104C238 104 242 148 216 160C250 176 244 236 200 236C156 236 150 176 184 160C158 148 162 104 200 104Z';
    const siphons = pen.oval(200, 132, 19, 17, '#f7ead5') + pen.oval(200, 132, 8, 7, '#4a4038') + pen.oval(200, 200, 23, 21, '#f7ead5') + pen.oval(200, 200, 10, 9, '#4a4038'); // prettier-ignore
    const powder = pen.line('M170 270h4m12 6h4m12 -8h4m12 8h4m10 -6h4', { stroke: '#ffffff', 'stroke-width': 6 });
    return { marks: coral + cups + pen.shape(slot, '#6d4f3a') + siphons + powder, parts: { body: [200, 170], mouth: [200, 200], hole: [172, 120], edge: [156, 210], ground: [90, 270], skin: [200, 132] }, span: 130 }; // prettier-ignore
  }
  const pit = 'M122 172C122 100 170 86 214 92C276 100 292 160 274 206C254 246 150 250 128 214Z';
  const crab = pen.oval(204, 170, 52, 40) + pen.dot(184, 138, 7) + pen.dot(224, 138, 7);
  const legs = [-1, 1].map((s) => limb(pen, curve([[204 + s * 34, 186], [204 + s * 62, 196], [204 + s * 44, 222]]), 12)).join(''); // prettier-ignore
  return { marks: coral + cups + pen.shape(pit, '#5c4334') + legs + crab, parts: { body: [204, 170], mouth: [140, 140], hole: [136, 130], edge: [128, 160], legs: [150, 214], ground: [80, 250], skin: [204, 170], claws: [240, 214] }, span: 150 }; // prettier-ignore
}
