import type { Page } from 'playwright-core';
import { seedDemoClub } from '../../../src/room/demo-club.ts';
import { openRoom } from '../../../src/room/open-room.ts';
import { openPage } from '../../../src/room/page-api.ts';
import { startPageBot } from './page-bot.ts';
import { buildPage, openBrowser, visit } from './page-browser.ts';

/** The demo club, the bot that shows every part, and a browser that looks at them. */
export async function openStage() {
  const built = await buildPage();
  const { extend } = openPage({ folder: built.folder, seed: seedDemoClub });
  const room = await openRoom({ extend });
  seedDemoClub(room);
  const endBot = await startPageBot(room);
  const browser = await openBrowser();
  const { page, troubles } = await visit(browser, room.origin);
  return {
    room,
    page,
    troubles,
    folder: built.folder,
    ...stageActs(page),
    async close() {
      await browser.close();
      await endBot();
      await room.close();
      await built.remove();
    },
  };
}

function stageActs(page: Page) {
  const entry = () => page.getByRole('combobox', { name: /Write in/ });
  const newest = () => page.getByRole('article').last();
  return {
    entry,
    newest,
    /** Writes a line and sends it. */
    say: async (line: string) => {
      await entry().fill(line);
      await entry().press('Enter');
    },
    /** Waits until the newest message says something. */
    hear: (words: string) => newest().getByText(words).first().waitFor(),
    /** What is offered beneath the entry. */
    choice: (name: string | RegExp) =>
      page.getByRole('listbox', { name: /^(Choices|thing|whose)$/ }).getByRole('option', { name }),
  };
}
