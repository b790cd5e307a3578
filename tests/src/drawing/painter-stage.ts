import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { createPainter, type Painter, type PainterSetting } from '../../../src/drawing/painter.ts';

const DRAWING = fileURLToPath(new URL('../../../src/drawing/', import.meta.url));
// Beside this file, so that the bundle finds the renderer in the node_modules of the project.
const HERE = fileURLToPath(new URL('.', import.meta.url));

export type PainterStage = {
  painter(setting?: PainterSetting): Painter;
  /** Bundles other source as a worker, to try the painter with one that misbehaves. */
  workerOf(source: string): Promise<string>;
  workerFile: string;
  remove(): void;
};

/** The worker bundled from source, since Node 20 runs no TypeScript. */
export async function painterStage(): Promise<PainterStage> {
  const folder = mkdtempSync(join(HERE, '.painter-'));
  const workerFile = join(folder, 'painter.mjs');
  const common = { bundle: true, platform: 'node' as const, format: 'esm' as const, external: ['@resvg/resvg-js'] };
  await build({ ...common, entryPoints: [join(DRAWING, 'painter.worker-thread.ts')], outfile: workerFile });
  let count = 0;
  return {
    workerFile,
    painter: (setting = {}) => createPainter({ workerFile, ...setting }),
    async workerOf(source) {
      const outfile = join(folder, `worker-${++count}.mjs`);
      await build({ ...common, stdin: { contents: source, loader: 'js' }, outfile });
      return outfile;
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** How many pixels of a PNG are darker than this, read with the renderer itself from an SVG that holds the PNG. */
export async function darkPixels(png: Buffer, limit = 110): Promise<number> {
  const { Resvg } = await import('@resvg/resvg-js');
  const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
  const href = `data:image/png;base64,${png.toString('base64')}`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${width}" height="${height}"><image width="${width}" height="${height}" xlink:href="${href}"/></svg>`;
  const { pixels } = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
  let dark = 0;
  for (let i = 0; i < pixels.length; i += 4)
    if ((pixels[i] ?? 0) + (pixels[i + 1] ?? 0) + (pixels[i + 2] ?? 0) < limit * 3 && (pixels[i + 3] ?? 0) > 128)
      dark++;
  return dark;
}
