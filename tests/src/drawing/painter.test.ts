import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Painter, PainterSetting } from '../../../src/drawing/painter.ts';
import { framed, writing } from '../../../src/drawing/page.ts';
import { darkPixels, painterStage, type PainterStage } from './painter-stage.ts';

const words = (text: string) => framed(400, 100, 'light', writing([text], 10, 60, { size: 40, fill: '#000000' }));
const BROKEN = '<svg xmlns="http://www.w3.org/2000/svg"><g></svg>';

let stage: PainterStage;
const open: Painter[] = [];
const painter = (setting?: PainterSetting) => {
  const made = stage.painter(setting);
  open.push(made);
  return made;
};

beforeAll(async () => {
  stage = await painterStage();
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((one) => one.close()));
});
afterAll(() => stage.remove());

describe('createPainter', () => {
  it('paints a PNG of the width asked for', async () => {
    const png = await painter().paint(words('Hello'), 800);
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect(png.readUInt32BE(16)).toBe(800);
    expect(png.readUInt32BE(20)).toBe(200);
  });

  it('really draws the letters, in both weights', async () => {
    const one = painter();
    const empty = await darkPixels(await one.paint(words(' '), 400));
    const plain = await darkPixels(await one.paint(words('Wimple'), 400));
    const bold = framed(
      400,
      100,
      'light',
      writing(['Wimple'], 10, 60, { size: 40, weight: 'semibold', fill: '#000000' }),
    );
    expect(empty).toBe(0);
    expect(plain).toBeGreaterThan(400);
    expect(await darkPixels(await one.paint(bold, 400))).toBeGreaterThan(plain * 1.1);
  });

  it('gives the same bytes for the same picture', async () => {
    const one = painter();
    expect(await one.paint(words('Twice'), 300)).toEqual(await one.paint(words('Twice'), 300));
  });

  it('refuses a broken picture and paints the next one', async () => {
    const one = painter();
    const [broken, sound] = await Promise.allSettled([one.paint(BROKEN, 300), one.paint(words('After'), 300)]);
    expect(broken).toMatchObject({ status: 'rejected', reason: { name: 'PaintingFailed' } });
    expect(sound.status).toBe('fulfilled');
  });

  it('starts a new worker when one crashes', async () => {
    const crashing = await stage.workerOf(`
      import { parentPort } from 'node:worker_threads';
      parentPort.on('message', ({ id, svg }) => {
        if (svg === 'crash') throw new Error('out of paint');
        if (svg === 'leave') process.exit(3);
        parentPort.postMessage({ id, png: new TextEncoder().encode(svg) });
      });`);
    const one = painter({ workerFile: crashing });
    const asked = ['crash', 'first', 'leave', 'second'].map((svg) => one.paint(svg, 1).then(String, String));
    expect(await Promise.all(asked)).toEqual([
      'PaintingFailed: the worker failed: out of paint',
      'first',
      'PaintingFailed: the worker ended with code 3',
      'second',
    ]);
  });

  it('gives up on a picture that takes too long, and on that one only', async () => {
    const slow = await stage.workerOf(`
      import { parentPort } from 'node:worker_threads';
      parentPort.on('message', ({ id, svg }) => {
        while (svg === 'endless') {}
        parentPort.postMessage({ id, png: new Uint8Array(1) });
      });`);
    const one = painter({ workerFile: slow, timeLimitMs: 400 });
    const [endless, quick] = await Promise.allSettled([one.paint('endless', 1), one.paint('quick', 1)]);
    expect(endless).toMatchObject({ reason: { message: 'not painted within 400 ms' } });
    expect(quick.status).toBe('fulfilled');
  });

  it('refuses more pictures than may wait', async () => {
    const one = painter({ longestQueue: 2 });
    const asked = await Promise.allSettled([1, 2, 3, 4].map((i) => one.paint(words(`${i}`), 50)));
    expect(asked.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled', 'fulfilled', 'rejected']);
  });

  it('says which file is missing', async () => {
    await expect(painter({ workerFile: '/nowhere/painter.js' }).paint(words('x'), 10)).rejects.toThrow(
      '/nowhere/painter.js is missing; run the build',
    );
    await expect(painter({ fontFiles: ['/nowhere/letters.ttf'] }).paint(words('x'), 10)).rejects.toThrow('letters.ttf');
  });

  it('fails what still waits when it is closed, and paints nothing after', async () => {
    const one = painter();
    const waiting = Promise.allSettled([one.paint(words('a'), 100), one.paint(words('b'), 100)]);
    await one.close();
    expect((await waiting).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
    await expect(one.paint(words('c'), 100)).rejects.toThrow('the painter is closed');
  });
});
