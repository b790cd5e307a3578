// Turns SVG into PNG away from the main thread, since one picture takes about 20 ms of pure computing.
// This file is an entry point of the build: it becomes dist/painter.js.
import { parentPort, workerData } from 'node:worker_threads';
import { Resvg } from '@resvg/resvg-js';
import type { PaintAnswer, PaintOrder, PaintSetting } from './painter-messages.ts';

const { fonts } = workerData as PaintSetting;

parentPort?.on('message', ({ id, svg, width }: PaintOrder) => {
  parentPort?.postMessage(painted(id, svg, width));
});

function painted(id: number, svg: string, width: number): PaintAnswer {
  try {
    const picture = new Resvg(svg, {
      fitTo: { mode: 'width', value: width },
      // Fonts of the machine stay out, so that the same plate gives the same picture everywhere.
      font: { fontFiles: [...fonts], loadSystemFonts: false, defaultFontFamily: 'Inter' },
    });
    return { id, png: picture.render().asPng() };
  } catch (error) {
    return { id, problem: error instanceof Error ? error.message : String(error) };
  }
}
