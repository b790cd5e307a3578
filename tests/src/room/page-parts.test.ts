import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { seedDemoClub } from '../../../src/room/demo-club.ts';
import { drawDemoPhoto } from '../../../src/room/demo-photo.ts';
import { openRoom, type Room } from '../../../src/room/open-room.ts';
import { openPage } from '../../../src/room/page-api.ts';
import { startPageBot } from './page-bot.ts';
import { BROWSER, BROWSER_NOTE, buildPage, expectNoSideways, objections, openBrowser, visit } from './page-browser.ts';

describe.skipIf(!BROWSER)(`every part on the page${BROWSER_NOTE}`, { timeout: 60_000 }, () => {
  let browser: Browser;
  let room: Room;
  let page: Page;
  let troubles: string[];
  let folder: string;
  const endings: (() => Promise<unknown>)[] = [];
  beforeAll(async () => {
    const built = await buildPage();
    endings.push(built.remove);
    folder = built.folder;
    const { extend } = openPage({ folder, seed: seedDemoClub });
    room = await openRoom({ extend, firstResponseMs: 700 });
    seedDemoClub(room);
    const endBot = await startPageBot(room);
    browser = await openBrowser();
    endings.push(
      () => room.close(),
      endBot,
      () => browser.close(),
    );
    ({ page, troubles } = await visit(browser, room.origin));
  });
  afterAll(async () => {
    for (const end of endings.toReversed()) await end();
  });

  const say = async (line: string) => {
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.fill(line);
    await entry.press('Enter');
  };
  const choices = () => page.getByRole('listbox', { name: /^(Choices|thing|whose)$/ });
  const newest = () => page.getByRole('article').last();
  const expectText = (words: string) => newest().getByText(words).first().waitFor();

  test('draws all parts of a message, and text never becomes markup', async () => {
    await say('/show parts ');
    await newest().getByRole('heading', { name: 'Everything at once' }).waitFor();
    for (const tag of ['strong', 'em', 'u', 's', 'code', 'li', 'blockquote', 'hr']) {
      expect(await newest().locator('.prose, hr').locator(`xpath=descendant-or-self::${tag}`).count()).toBeGreaterThan(
        0,
      );
    }
    await newest().getByText('<script>globalThis.broken = true</script>').waitFor();
    expect(await page.evaluate(() => 'broken' in globalThis)).toBe(false);
    await newest().getByRole('img', { name: 'A small worm' }).waitFor();
    await newest()
      .getByRole('link', { name: /notes\.txt/ })
      .waitFor();
    await newest()
      .getByRole('button', { name: /Hidden/ })
      .click();
    await expectText('the secret');
    expect(await newest().getByText('14 November 2023').count()).toBe(1);
    expect(await newest().getByRole('button', { name: 'Shut' }).isDisabled()).toBe(true);
    expect(
      await newest()
        .getByRole('link', { name: /A paper/ })
        .getAttribute('rel'),
    ).toContain('noopener');
    expect(await objections(page)).toEqual([]);
  });

  test('a picture opens large with its description in words', async () => {
    await newest().getByRole('button', { name: 'An orange worm on dark rock' }).click();
    const dialog = page.getByRole('dialog', { name: 'Picture' });
    await dialog.getByText('An orange worm on dark rock').waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'hidden' });
  });

  test('buttons answer, a silent one says so, and private answers are dismissed', async () => {
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByRole('button', { name: 'Say nothing' }).click();
    await card.getByText(/did not answer/).waitFor();
    await card.getByRole('button', { name: 'Beside it' }).click();
    await expectText('You pressed press:beside');
    await expectText('Only you can see this.');
    const before = await page.getByRole('article').count();
    await newest().getByRole('button', { name: 'Dismiss' }).click();
    await expect.poll(() => page.getByRole('article').count()).toBe(before - 1);
  });

  test('selects of every kind send what was chosen', async () => {
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByLabel('Which end?').selectOption('tail');
    await expectText('You chose 1: tail');
    const several = card.getByRole('group', { name: 'Which ends?' });
    await several.getByLabel('Head').check();
    await several.getByLabel('Tail').check();
    await several.getByRole('button', { name: /Send choice/ }).click();
    await expectText('You chose 2: head and tail');
    await card.getByLabel('Who?').selectOption({ label: '@Maren' });
    await expectText('You chose 1: who');
    await card.getByLabel('Which role?').selectOption({ label: '@curator' });
    await expectText('You chose 1: role');
    await card.getByLabel('Where?').selectOption({ label: '#swap' });
    await expectText('You chose 1: where');
  });

  test('a form takes every kind of answer, and keeps them when one is missing', async () => {
    await say('/show form ');
    const form = page.getByRole('dialog', { name: 'What was it?' });
    await form.getByLabel(/What did you see/).fill('something orange');
    await form.getByText('16 of 200 characters').waitFor();
    await form.getByLabel('Hardly').check();
    await form.getByLabel('Tell me more').check();
    await form.getByRole('button', { name: 'Submit' }).click();
    await form
      .getByRole('alert')
      .getByText(/Where was it/)
      .waitFor();
    expect(await form.getByLabel(/What did you see/).inputValue()).toBe('something orange');
    expect(await objections(page)).toEqual([]);
    await form.getByLabel('Sand').check();
    await form.getByLabel('Rock').check();
    await form.getByRole('button', { name: 'Submit' }).click();
    await form.waitFor({ state: 'detached' });
    await expectText('You sent something orange, hardly, sand+rock, true');
  });

  test('a form takes files', async () => {
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByRole('button', { name: 'Open form' }).click();
    const form = page.getByRole('dialog', { name: 'What was it?' });
    await form.getByLabel(/Photo/).setInputFiles({ name: 'head.png', mimeType: 'image/png', buffer: drawDemoPhoto() });
    await form.getByLabel('What it shows, in words').fill('the head');
    await form.getByRole('button', { name: 'Submit' }).click();
    await expectText('You sent head.png');
  });

  test('a form can be left without sending', async () => {
    await say('/show form ');
    const form = page.getByRole('dialog', { name: 'What was it?' });
    await form.waitFor();
    await page.keyboard.press('Escape');
    await form.waitFor({ state: 'detached' });
  });

  test('the command list leads to options with live suggestions, by keyboard alone', async () => {
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.focus();
    await page.keyboard.type('/fin');
    await choices()
      .getByRole('option', { name: /\/find thing/ })
      .waitFor();
    await page.keyboard.press('Enter');
    const thing = page.getByRole('combobox', { name: 'thing required' });
    await choices().getByRole('option', { name: 'amber snail (leave it)' }).waitFor();
    expect(await thing.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('Still needed: thing.').waitFor();
    await page.keyboard.type('bri');
    await choices()
      .getByRole('option', { name: /bristle worm/ })
      .waitFor();
    expect(await objections(page)).toEqual([]);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect(await thing.inputValue()).toBe('bristle worm (leave it)');
    await page.getByRole('button', { name: 'whose (optional)' }).press('Enter');
    await page.keyboard.type('ma');
    await choices().getByRole('option', { name: '@Maren' }).waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await expectText('found thing:bristle worm of Maren with no photo');
    expect(await entry.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  test('a name that nothing matches is said so, and can still be sent', async () => {
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.fill('/find thing thing:zzz');
    await page.getByText('No match. You can send what you typed.').waitFor();
    await entry.press('Enter');
    await expectText('found zzz of nobody with no photo');
  });

  test('only a curator is offered what curators may do', async () => {
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.fill('/settle');
    await page.getByText('No command of that name for this member.').waitFor();
    await page.getByLabel('Acting as').selectOption('Maren');
    await entry.fill('/settle');
    await choices()
      .getByRole('option', { name: /\/settle/ })
      .waitFor();
    await entry.press('Enter');
    await page.getByRole('form', { name: 'Command /settle' }).getByRole('button', { name: 'Send' }).press('Enter');
    await expectText('Settled');
    await page.getByLabel('Acting as').selectOption('Ines');
    await page.getByText('Settled').waitFor({ state: 'detached' });
  });

  test('a command without options is sent from its form by Enter', async () => {
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.fill('/show embed');
    await entry.press('Enter');
    await page.keyboard.press('Enter');
    await newest().getByRole('heading', { name: 'A card' }).waitFor();
    await expectText('4 cm');
  });

  test('photos go out with a description, and a menu entry asks about them', async () => {
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'find.png', mimeType: 'image/png', buffer: drawDemoPhoto() });
    await page.getByLabel('What it shows, in words').fill('A worm at night');
    await say('What is this?');
    await newest().getByRole('img', { name: 'A worm at night' }).waitFor();
    await newest().getByRole('button', { name: /^More/ }).click();
    await page.getByRole('button', { name: 'Ask about this photo' }).click();
    await expectText('A photo by Ines');
  });

  test('a file that is too large is refused in words', async () => {
    const big = join(folder, 'big.png');
    writeFileSync(big, Buffer.alloc(11_000_000));
    await page.locator('input[type=file]').setInputFiles(big);
    await page
      .getByRole('alert')
      .getByText(/big\.png is 11\.0 MB; at most 10 MB/)
      .waitFor();
  });

  test('a mention is answered', async () => {
    await say('@Reef club bot are you there?');
    await expectText('You called?');
    await expectText('answers Ines');
  });

  test('threads and direct messages are places of their own, with what is new in words', async () => {
    await say('/show thread ');
    await page.getByRole('button', { name: 'Go to thread: A closer look' }).click();
    await expectText('Here we are');
    await page.getByRole('button', { name: '#ask', exact: true }).click();
    await say('/show letter ');
    const letters = page.getByRole('button', { name: /With the bot/ });
    await letters.getByText('1 new').waitFor();
    await letters.click();
    await expectText('A letter for you');
    await page.getByLabel('Acting as').selectOption('Petra');
    await page.getByRole('button', { name: '#ask', exact: true }).click();
    await say('/show letter ');
    await expectText('Your direct messages are closed, so here it is');
    await page.getByLabel('Acting as').selectOption('Ines');
  });

  test('an answer that takes its time arrives', async () => {
    await say('/show later ');
    await expectText('It took a while');
  });

  test('the clock moves and says so', async () => {
    const before = room.clock.now().getTime();
    await page.getByRole('button', { name: /^\+1 day/ }).click();
    await page.getByText('The clock moved 1 day on.').waitFor();
    expect(room.clock.now().getTime() - before).toBeGreaterThanOrEqual(86_400_000);
  });

  test('what is behind a message is shown with the limits it uses', async () => {
    await page.getByRole('button', { name: 'Explain', exact: true }).click();
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByRole('button', { name: /^More/ }).click();
    await page.getByRole('button', { name: 'Look behind this message' }).click();
    await page.getByText('Components: 32 of 40').waitFor();
    await page.getByText('"custom_id": "press:main"').waitFor();
    expect(await objections(page)).toEqual([]);
  });

  test.each([375, 320])('everything fits %i px', async (width) => {
    await page.setViewportSize({ width, height: 800 });
    await expectNoSideways(page);
    for (const view of ['Places', 'Help', 'Room', 'Conversation']) {
      await page.getByRole('navigation', { name: 'Show' }).getByRole('button', { name: view }).click();
      await expectNoSideways(page);
      expect(await objections(page)).toEqual([]);
    }
    await page.setViewportSize({ width: 1280, height: 860 });
  });

  test('at twice the size nothing sticks out and the entry line can be reached', async () => {
    await page.setViewportSize({ width: 640, height: 430 });
    await expectNoSideways(page);
    const entry = page.getByRole('combobox', { name: /Write in/ });
    await entry.scrollIntoViewIfNeeded();
    await entry.fill('seen at twice the size');
    await entry.press('Enter');
    await expectText('seen at twice the size');
    await page.setViewportSize({ width: 1280, height: 860 });
  });

  test('start over brings the club back as it was', async () => {
    await page.getByRole('button', { name: 'Start over' }).click();
    await page.getByText('The room starts over.').waitFor();
    await expect.poll(() => page.getByRole('article').count()).toBe(5);
    expect(await page.getByRole('button', { name: 'A closer look' }).count()).toBe(0);
  });

  test('nothing went wrong, nothing left this computer', () => {
    expect(troubles).toEqual([]);
    expect(room.contract.breaches()).toEqual([]);
  });
});
