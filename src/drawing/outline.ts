// Every outline by its name. A subject names one and gives its proportions; the types keep the two together.
import { drawAlgae } from './outlines/algae.ts';
import { drawAsterina } from './outlines/asterina.ts';
import { drawBivalve } from './outlines/bivalve.ts';
import { drawBobbitWorm } from './outlines/bobbit-worm.ts';
import { drawBrittleStar, drawFeatherStar } from './outlines/brittle-star.ts';
import { drawCap, drawChiton, drawGlossy } from './outlines/cap-shell.ts';
import { drawEightArms, drawHydroid, drawZoanthids } from './outlines/colony.ts';
import { drawConeSnail } from './outlines/cone-snail.ts';
import { drawCoralBug } from './outlines/coral-bug.ts';
import { drawCoralSnail } from './outlines/coral-snail.ts';
import { drawCrab } from './outlines/crab.ts';
import { drawCrawlingShell } from './outlines/crawling-shell.ts';
import { drawCrust, drawSac } from './outlines/crust.ts';
import { drawFilm } from './outlines/film.ts';
import { drawFireCoral } from './outlines/fire-coral.ts';
import { drawFlatworm } from './outlines/flatworm.ts';
import { drawHermit } from './outlines/hermit.ts';
import { drawJelly } from './outlines/jelly.ts';
import { drawOctopus } from './outlines/octopus.ts';
import { drawOvalWorm } from './outlines/oval-worm.ts';
import { drawBean, drawFlatPod, drawSidePod, drawSpider, drawStick } from './outlines/pod.ts';
import { drawPolyp } from './outlines/polyp.ts';
import { drawHorseshoe, drawSausage, drawSeaPen, drawTrunk } from './outlines/sausage.ts';
import { drawShell } from './outlines/shell.ts';
import { drawShrimp } from './outlines/shrimp.ts';
import { drawSlug } from './outlines/slug.ts';
import { drawEggs, drawFish } from './outlines/specks.ts';
import { drawSponge } from './outlines/sponge.ts';
import { drawStar, drawThornyStar } from './outlines/star.ts';
import { drawCoilTubes, drawThreads, drawTube } from './outlines/tube.ts';
import { drawSandDollar, drawUrchin } from './outlines/urchin.ts';
import { drawVermetid } from './outlines/vermetid.ts';
import { drawWorm } from './outlines/worm.ts';
import type { Pen, Sketch } from './pen.ts';

const OUTLINES = {
  worm: drawWorm,
  'bobbit-worm': drawBobbitWorm,
  'oval-worm': drawOvalWorm,
  sausage: drawSausage,
  trunk: drawTrunk,
  flatworm: drawFlatworm,
  tube: drawTube,
  'coil-tubes': drawCoilTubes,
  vermetid: drawVermetid,
  threads: drawThreads,
  star: drawStar,
  'thorny-star': drawThornyStar,
  asterina: drawAsterina,
  'brittle-star': drawBrittleStar,
  'feather-star': drawFeatherStar,
  urchin: drawUrchin,
  'sand-dollar': drawSandDollar,
  shell: drawShell,
  'crawling-shell': drawCrawlingShell,
  'coral-snail': drawCoralSnail,
  'cone-snail': drawConeSnail,
  glossy: drawGlossy,
  cap: drawCap,
  chiton: drawChiton,
  bivalve: drawBivalve,
  slug: drawSlug,
  octopus: drawOctopus,
  jelly: drawJelly,
  polyp: drawPolyp,
  zoanthids: drawZoanthids,
  'eight-arms': drawEightArms,
  hydroid: drawHydroid,
  'sea-pen': drawSeaPen,
  'coral-bug': drawCoralBug,
  'flat-pod': drawFlatPod,
  'side-pod': drawSidePod,
  bean: drawBean,
  stick: drawStick,
  spider: drawSpider,
  shrimp: drawShrimp,
  crab: drawCrab,
  hermit: drawHermit,
  horseshoe: drawHorseshoe,
  crust: drawCrust,
  'fire-coral': drawFireCoral,
  sponge: drawSponge,
  sac: drawSac,
  algae: drawAlgae,
  film: drawFilm,
  fish: drawFish,
  eggs: drawEggs,
};

export type OutlineName = keyof typeof OUTLINES;
/** An outline without proportions takes the pen alone. */
type ShapeOf<Name extends OutlineName> = (typeof OUTLINES)[Name] extends (pen: Pen) => Sketch
  ? unknown
  : Parameters<(typeof OUTLINES)[Name]>[1];
export type Outline = { [Name in OutlineName]: { outline: Name } & ShapeOf<Name> }[OutlineName];

export const OUTLINE_NAMES = Object.keys(OUTLINES) as OutlineName[];

/** Draws an outline in its box with the colours of the pen. */
export function drawOutline(pen: Pen, shape: Outline): Sketch {
  // The type of `Outline` ties each name to its own shape, which TypeScript cannot follow through the look-up.
  const draw = OUTLINES[shape.outline] as (pen: Pen, shape: Outline) => Sketch;
  return draw(pen, shape);
}
