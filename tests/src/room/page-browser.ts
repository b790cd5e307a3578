import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { chromium, type Browser, type Page } from 'playwright-core';
import { expect } from 'vitest';

// A real browser for the tests of the page.

const GIVEN = process.env['CHROMIUM'];
const PLACES = GIVEN ? [GIVEN] : ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
/** Where a browser is, if there is one. */
export const BROWSER = PLACES.find((place) => existsSync(place));
/** What the report says beside tests that need one. */
export const BROWSER_NOTE = BROWSER ? '' : ' (skipped: no Chromium found; set CHROMIUM to its path)';

const QUIET = ['background-networking', 'component-update', 'sync', 'gpu', 'quic'].map((what) => `--disable-${what}`);

/** Starts the browser. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: BROWSER ?? '', args: ['--no-sandbox', '--no-first-run', ...QUIET] });

/** Bundles the page into a folder of its own. Gives back the folder and how to remove it. */
export async function buildPage(): Promise<{ folder: string; remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), 'room-page-'));
  const program = new URL('../../../.config/build.mjs', import.meta.url).href;
  const { bundlePage } = (await import(program)) as { bundlePage: (folder: string) => Promise<void> };
  await bundlePage(folder);
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) };
}

/** Opens the page of a room and notes everything that goes wrong in it and every address outside the room. */
export async function visit(browser: Browser, origin: string, width = 1280) {
  const context = await browser.newContext({ viewport: { width, height: 860 }, reducedMotion: 'reduce' });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const troubles: string[] = [];
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('console', (message) => message.type() === 'error' && troubles.push(message.text()));
  page.on('request', (request) => {
    if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(`${origin}/`)) troubles.push(request.url());
  });
  await page.goto(origin);
  await page.getByRole('log').waitFor();
  return { page, troubles, leave: () => context.close() };
}

/** Everything that the accessibility checker objects to, in words. */
export async function objections(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`);
}

/** Nothing sticks out to the side. */
export async function expectNoSideways(page: Page): Promise<void> {
  const [content, window] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth] as const);
  expect(content).toBeLessThanOrEqual(window);
}
