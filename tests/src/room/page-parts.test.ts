import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { drawDemoPhoto } from '../../../src/room/demo-photo.ts';
import { BROWSER, BROWSER_NOTE, expectNoSideways, objections } from './page-browser.ts';
import { openStage } from './page-stage.ts';

describe.skipIf(!BROWSER)(`every part on the page${BROWSER_NOTE}`, { timeout: 60_000 }, () => {
  let stage: Awaited<ReturnType<typeof openStage>>;
  let page: Page;
  beforeAll(async () => {
    stage = await openStage();
    page = stage.page;
  });
  afterAll(() => stage.close());

  test('draws all parts of a message, and text never becomes markup', async () => {
    await stage.say('/show parts ');
    await stage.newest().getByRole('heading', { name: 'Everything at once' }).waitFor();
    for (const tag of ['strong', 'em', 'u', 's', 'code', 'li', 'blockquote', 'hr']) {
      expect(
        await stage.newest().locator('.prose, hr').locator(`xpath=descendant-or-self::${tag}`).count(),
      ).toBeGreaterThan(0);
    }
    await stage.newest().getByText('<script>globalThis.broken = true</script>').waitFor();
    expect(await page.evaluate(() => 'broken' in globalThis)).toBe(false);
    await stage.newest().getByRole('img', { name: 'A small worm' }).waitFor();
    await stage
      .newest()
      .getByRole('link', { name: /notes\.txt/ })
      .waitFor();
    await stage
      .newest()
      .getByRole('button', { name: /Hidden/ })
      .click();
    await stage.hear('the secret');
    expect(await stage.newest().getByText('14 November 2023').count()).toBe(1);
    expect(await stage.newest().getByRole('button', { name: 'Shut' }).isDisabled()).toBe(true);
    expect(
      await stage
        .newest()
        .getByRole('link', { name: /A paper/ })
        .getAttribute('rel'),
    ).toContain('noopener');
    expect(await objections(page)).toEqual([]);
  });

  test('a picture opens large with its description in words', async () => {
    await stage.newest().getByRole('button', { name: 'An orange worm on dark rock' }).click();
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
    await stage.hear('You pressed press:beside');
    await stage.hear('Only you can see this.');
    const before = await page.getByRole('article').count();
    await stage.newest().getByRole('button', { name: 'Dismiss' }).click();
    await expect.poll(() => page.getByRole('article').count()).toBe(before - 1);
  });

  test('selects of every kind send what was chosen', async () => {
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByLabel('Which end?').selectOption('tail');
    await stage.hear('You chose 1: tail');
    const several = card.getByRole('group', { name: 'Which ends?' });
    await several.getByLabel('Head').check();
    await several.getByLabel('Tail').check();
    await several.getByRole('button', { name: /Send choice/ }).click();
    await stage.hear('You chose 2: head and tail');
    await card.getByLabel('Who?').selectOption({ label: '@Maren' });
    await stage.hear('You chose 1: who');
    await card.getByLabel('Which role?').selectOption({ label: '@curator' });
    await stage.hear('You chose 1: role');
    await card.getByLabel('Where?').selectOption({ label: '#swap' });
    await stage.hear('You chose 1: where');
  });

  test('a form takes every kind of answer, and keeps them when one is missing', async () => {
    await stage.say('/show form ');
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
    await stage.hear('You sent something orange, hardly, sand+rock, true');
  });

  test('a form takes files', async () => {
    const card = page.getByRole('article').filter({ hasText: 'Everything at once' });
    await card.getByRole('button', { name: 'Open form' }).click();
    const form = page.getByRole('dialog', { name: 'What was it?' });
    await form.getByLabel(/Photo/).setInputFiles({ name: 'head.png', mimeType: 'image/png', buffer: drawDemoPhoto() });
    await form.getByLabel('What it shows, in words').fill('the head');
    await form.getByRole('button', { name: 'Submit' }).click();
    await stage.hear('You sent head.png');
  });

  test('a form can be left without sending', async () => {
    await stage.say('/show form ');
    const form = page.getByRole('dialog', { name: 'What was it?' });
    await form.waitFor();
    await page.keyboard.press('Escape');
    await form.waitFor({ state: 'detached' });
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

  test('nothing went wrong, nothing left this computer', () => {
    expect(stage.troubles).toEqual([]);
    expect(stage.room.contract.breaches()).toEqual([]);
  });
});
