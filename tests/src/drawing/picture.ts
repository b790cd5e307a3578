import { Resvg } from '@resvg/resvg-js';
import { loadKnowledge } from '../../../src/knowledge/knowledge.loader.ts';
import type { Plate } from '../../../src/drawing/page.ts';
import { subjectOf } from '../../../src/drawing/subject.ts';

/** The knowledge base of the project. */
export const { knowledge } = loadKnowledge('knowledge');
const byId = new Map(knowledge.critters.map((critter) => [critter.id, critter]));

/** A critter of the knowledge base with its name and subject. */
export function named(id: string) {
  const critter = byId.get(id);
  if (!critter) throw new Error(`no critter ${id}`);
  return { name: critter.name, subject: subjectOf(critter) };
}

export const FONT_FILES = ['regular', 'semibold'].map((weight) => `src/drawing/font/inter-${weight}.ttf`);
const font = { fontFiles: FONT_FILES, loadSystemFonts: false };

/** Renders an SVG; broken SVG throws. */
export function rendered(svg: string, width?: number) {
  return new Resvg(svg, width ? { font, fitTo: { mode: 'width', value: width } } : { font }).render();
}

/** The box round everything that is painted, in the units of the view box, which reaches 100 beyond the drawing. */
export function inkedBox(marks: string): { left: number; top: number; right: number; bottom: number } {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="260" viewBox="-100 -100 600 520">${marks}</svg>`;
  const { pixels, width, height } = rendered(svg);
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if ((pixels[(y * width + x) * 4 + 3] ?? 0) <= 40) continue;
      box.left = Math.min(box.left, x * 2 - 100);
      box.right = Math.max(box.right, x * 2 - 100);
      box.top = Math.min(box.top, y * 2 - 100);
      box.bottom = Math.max(box.bottom, y * 2 - 100);
    }
  return box;
}

export type Line = { text: string; x: number; y: number; size: number; weight: 'regular' | 'semibold'; anchor: string };

const decoded = (text: string) => text.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&quot;/g, '"').replace(/&amp;/g, '&'); // prettier-ignore

/** Every line of text on a plate outside the drawings, which hold none. */
export function linesOf(plate: Plate): Line[] {
  return [...plate.svg.matchAll(/<text ([^>]*)>([^<]*)<\/text>/g)].map(([, attributes = '', text = '']) => {
    const value = (name: string) => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes)?.[1] ?? '';
    return {
      text: decoded(text),
      x: Number(value('x')),
      y: Number(value('y')),
      size: Number(value('font-size')),
      weight: value('font-weight') === '600' ? 'semibold' : 'regular',
      anchor: value('text-anchor') || 'start',
    };
  });
}

/** All words of a plate in one string, without the line breaks. */
export const wordsOf = (plate: Plate) => linesOf(plate).map(({ text }) => text).join(' '); // prettier-ignore
