import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { drawDemoPhoto } from '../../../src/room/demo-photo.ts';
import { BROWSER, BROWSER_NOTE, expectNoSideways, objections } from './page-browser.ts';
import { openStage } from './page-stage.ts';

describe.skipIf(!BROWSER)(`writing and going about on the page${BROWSER_NOTE}`, { timeout: 60_000 }, () => {
  let stage: Awaited<ReturnType<typeof openStage>>;
  let page: Page;
  beforeAll(async () => {
    stage = await openStage();
    page = stage.page;
  });
  afterAll(() => stage.close());

  test('the command list leads to options with live suggestions, by keyboard alone', async () => {
    const entry = stage.entry();
    await entry.focus();
    await page.keyboard.type('/fin');
    await stage.choice(/\/find thing/).waitFor();
    await page.keyboard.press('Enter');
    const thing = page.getByRole('combobox', { name: 'thing required' });
    await stage.choice('amber snail (leave it)').waitFor();
    expect(await thing.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Still needed: thing.').waitFor();
    await page.keyboard.type('bri');
    await stage.choice(/bristle worm/).waitFor();
    expect(await objections(page)).toEqual([]);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect(await thing.inputValue()).toBe('bristle worm (leave it)');
    await page.getByRole('button', { name: 'whose (optional)' }).press('Enter');
    await page.keyboard.type('ma');
    await stage.choice('@Maren').waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await stage.hear('found thing:bristle worm of Maren with no photo');
    expect(await entry.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  test('a name that nothing matches is said so, and can still be sent', async () => {
    const entry = stage.entry();
    await entry.fill('/find thing thing:zzz');
    await page.getByText('No match. You can send what you typed.').waitFor();
    await entry.press('Enter');
    await stage.hear('found zzz of nobody with no photo');
  });

  test('only a curator is offered what curators may do', async () => {
    const entry = stage.entry();
    await entry.fill('/settle');
    await page.getByText('No command of that name for this member.').waitFor();
    await page.getByLabel('Acting as').selectOption('Maren');
    await entry.fill('/settle');
    await stage.choice(/\/settle/).waitFor();
    await entry.press('Enter');
    await page.getByRole('form', { name: 'Command /settle' }).getByRole('button', { name: 'Send' }).press('Enter');
    await stage.hear('Settled');
    await page.getByLabel('Acting as').selectOption('Ines');
    await page.getByText('Settled').waitFor({ state: 'detached' });
  });

  test('a command without options is sent from its form by Enter', async () => {
    const entry = stage.entry();
    await entry.fill('/show embed');
    await entry.press('Enter');
    await page.keyboard.press('Enter');
    await stage.newest().getByRole('heading', { name: 'A card' }).waitFor();
    await stage.hear('4 cm');
  });

  test('photos go out with a description, and a menu entry asks about them', async () => {
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'find.png', mimeType: 'image/png', buffer: drawDemoPhoto() });
    await page.getByLabel('What it shows, in words').fill('A worm at night');
    await stage.say('What is this?');
    await stage.newest().getByRole('img', { name: 'A worm at night' }).waitFor();
    await stage.newest().getByRole('button', { name: /^More/ }).click();
    await page.getByRole('button', { name: 'Ask about this photo' }).click();
    await stage.hear('A photo by Ines');
  });

  test('a file that is too large is refused in words', async () => {
    const big = join(stage.folder, 'big.png');
    writeFileSync(big, Buffer.alloc(11_000_000));
    await page.locator('input[type=file]').setInputFiles(big);
    await page
      .getByRole('alert')
      .getByText(/big\.png is 11\.0 MB; at most 10 MB/)
      .waitFor();
  });

  test('words that are refused come back into the line', async () => {
    const line = '/find thing thing:worm photo:@nowhere.png';
    await stage.say(line);
    await page
      .getByRole('alert')
      .getByText(/cannot be read/)
      .waitFor();
    expect(await stage.entry().inputValue()).toBe(line);
    await stage.say('and now without a photo');
    await stage.hear('and now without a photo');
  });

  test('a mention is answered', async () => {
    await stage.say('@Reef club bot are you there?');
    await stage.hear('You called?');
    await stage.hear('answers Ines');
  });

  test('threads and direct messages are places of their own, with what is new in words', async () => {
    await stage.say('/show thread ');
    await page.getByRole('button', { name: 'Go to thread: A closer look' }).click();
    await stage.hear('Here we are');
    await page.getByRole('button', { name: '#ask', exact: true }).click();
    await stage.say('/show letter ');
    const letters = page.getByRole('button', { name: /With the bot/ });
    await letters.getByText('1 new').waitFor();
    await letters.click();
    await stage.hear('A letter for you');
    await page.getByLabel('Acting as').selectOption('Petra');
    await page.getByRole('button', { name: '#ask', exact: true }).click();
    await stage.say('/show letter ');
    await stage.hear('Your direct messages are closed, so here it is');
    await page.getByLabel('Acting as').selectOption('Ines');
  });

  test('an answer that takes its time arrives', async () => {
    await stage.say('/show later ');
    await stage.hear('It took a while');
  });

  test('the clock moves and says so', async () => {
    const before = stage.room.clock.now().getTime();
    await page.getByRole('button', { name: /^\+1 day/ }).click();
    await page.getByText('The clock moved 1 day on.').waitFor();
    expect(stage.room.clock.now().getTime() - before).toBeGreaterThanOrEqual(86_400_000);
  });

  test('at twice the size nothing sticks out and the entry line can be reached', async () => {
    await page.setViewportSize({ width: 640, height: 430 });
    await expectNoSideways(page);
    const entry = stage.entry();
    await entry.scrollIntoViewIfNeeded();
    await entry.fill('seen at twice the size');
    await entry.press('Enter');
    await stage.hear('seen at twice the size');
    await page.setViewportSize({ width: 1280, height: 860 });
  });

  test('start over brings the club back as it was', async () => {
    await page.getByRole('button', { name: 'Start over' }).click();
    await page.getByText('The room starts over.').waitFor();
    await expect.poll(() => page.getByRole('article').count()).toBe(5);
    expect(await page.getByRole('button', { name: 'A closer look' }).count()).toBe(0);
  });

  test('nothing went wrong, nothing left this computer', () => {
    expect(stage.troubles).toEqual([]);
    expect(stage.room.contract.breaches()).toEqual([]);
  });
});
