import { statSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { TASKS } from '../../../src/room/page/try-this.tsx';
import { openClub } from '../../set-up-club.ts';
import { BROWSER, BROWSER_NOTE, buildPage, expectNoSideways, objections, openBrowser, visit } from './page-browser.ts';

// The first minutes of a visitor, with the real bot: every task by keyboard alone.

const ANSWERS = [
  /Common scavenging bristle worm — Leave it/,
  /Common scavenging bristle worm/,
  /Common scavenging bristle worm or Bearded fireworm\?/,
  /gloves/i,
  /Common scavenging bristle worm/,
  /Bearded fireworm/,
  /sodium bicarbonate/,
  /Best here: Observation/,
];

describe.skipIf(!BROWSER)(`a visitor in the practice room${BROWSER_NOTE}`, { timeout: 60_000 }, () => {
  let browser: Browser;
  let built: Awaited<ReturnType<typeof buildPage>>;
  beforeAll(async () => {
    built = await buildPage();
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser.close();
    await built.remove();
  });

  test('the page is small', () => {
    const bytes = ['index.html', 'page.js', 'page.css'].reduce(
      (sum, name) => sum + statSync(`${built.folder}/${name}`).size,
      0,
    );
    expect(bytes).toBeLessThan(150_000);
  });

  test('every task has an answer to look for', () => {
    expect(TASKS).toHaveLength(ANSWERS.length);
  });

  test.each([
    { look: 'light', width: 1280 },
    { look: 'dark', width: 1280 },
    { look: 'light', width: 375 },
  ] as const)('does every task by keyboard: $look, $width px', async ({ look, width }) => {
    const club = await openClub({ demo: true, pageFolder: built.folder });
    const { page, troubles, leave } = await visit(browser, club.url, width);
    await page.emulateMedia({ colorScheme: look, reducedMotion: 'reduce' });
    await page.getByText('Practice room: nothing leaves this computer.').waitFor();
    await page.getByRole('img', { name: /orange-brown worm/ }).waitFor();
    expect(await objections(page)).toEqual([]);
    for (const [index, { title }] of TASKS.entries()) {
      if (width < 800)
        await page.getByRole('navigation', { name: 'Show' }).getByRole('button', { name: 'Help' }).press('Enter');
      await page.getByRole('button', { name: title }).press('Enter');
      const before = await page.getByRole('article').count();
      await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('entry');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.getByRole('article').count(), { timeout: 10_000 }).toBeGreaterThan(before);
      await page.getByRole('article').last().getByText(ANSWERS[index]!).first().waitFor();
      await expectNoSideways(page);
    }
    expect(await objections(page)).toEqual([]);
    expect(troubles).toEqual([]);
    await leave();
  });

  test('typing is helped, a choice is taken by keyboard, and its buttons outlive a restart of the bot', async () => {
    const club = await openClub({ demo: true, pageFolder: built.folder });
    const { page, troubles, leave } = await visit(browser, club.url);
    await page.getByRole('combobox', { name: /Write in/ }).focus();
    await page.keyboard.type('/critter na');
    await page.getByRole('option', { name: /\/critter name/ }).waitFor();
    await page.keyboard.press('Enter');
    await page.keyboard.type('brisle wrom');
    await page.getByRole('option', { name: /^Common scavenging bristle worm/ }).waitFor();
    for (let tries = 0; tries < 25; tries += 1) {
      await page.keyboard.press('ArrowDown');
      if ((await page.locator('[role=option][aria-selected=true]').textContent())?.startsWith('Common scavenging'))
        break;
    }
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    const card = page.getByRole('article').last();
    await card.getByRole('heading', { name: 'Common scavenging bristle worm — Leave it' }).waitFor();
    await card.getByText('Only you can see this.').waitFor();
    await club.restart();
    await card.getByRole('button', { name: 'First aid' }).press('Enter');
    await page.getByRole('heading', { name: 'First aid: Common scavenging bristle worm' }).waitFor();
    // Another member sees none of it.
    await page.getByLabel('Acting as').selectOption('Tom');
    await page.getByText('First aid: Common scavenging bristle worm').waitFor({ state: 'detached' });
    expect(troubles).toEqual([]);
    await leave();
  });
});
