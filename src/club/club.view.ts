import { joined, md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { ClubRecord, ClubSettings } from './club-settings.ts';
import { hoursInWords } from './hours-in-words.ts';

const privately = (title: string, ...paragraphs: Markdown[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [{ markdown: `## ${title}` }, ...paragraphs].map((text) => ({ kind: 'text', text })),
});

/** The settings, one line each; a later setting adds its line. */
const settingLines = (settings: ClubSettings): Markdown[] => [
  opinionLine(settings),
  unitsLine(settings),
  swapLine(settings),
];

const opinionLine = ({ opinionHours }: ClubSettings): Markdown =>
  md`**Second opinions** stay open for **${hoursInWords(opinionHours)}**, or until a curator settles them.`;
const unitsLine = (settings: ClubSettings): Markdown =>
  md`**Units** are **${unitWords(settings)}**. A tank can have its own.`;
const swapLine = ({ swapChannelId }: ClubSettings): Markdown =>
  swapChannelId === null
    ? md`**Frag swaps**: offers are posted where a member makes them.`
    : md`**Frag swaps**: offers are posted in ${channel(swapChannelId)}.`;
const channel = (id: string): Markdown => ({ markdown: `<#${id.replace(/\D/g, '')}>` });
const unitWords = ({ volumeUnit, temperatureUnit, alkalinityUnit, salinityUnit }: ClubSettings): string =>
  [volumeUnit, temperatureUnit, alkalinityUnit, salinityUnit].join(', ');

const HOW = joined([
  md`Send **/club settings** with **opinion-hours**, from 1 hour to 336 (two weeks). It counts for questions asked from then on.`,
  md`Or with **volume-unit**, **temperature-unit**, **alkalinity-unit** or **salinity-unit**. They count for new tanks, and where no tank is named.`,
  md`Or with **swap-here:yes** in the channel where offers of frags shall stand; **swap-here:no** unsets it.`,
]);
const WHO = md`Officers can change this: whoever may **Manage Server**.`;

/** How the club has it, for anybody to read. */
export const settingsView = ({ settings, changed }: ClubRecord, isOfficer: boolean): MessageView =>
  privately('How this club has it', joined(settingLines(settings)), isOfficer ? HOW : WHO, ...lastChange(changed));

function lastChange(changed: ClubRecord['changed']): Markdown[] {
  if (!changed) return [];
  const by: Markdown = { markdown: `<@${changed.byId.replace(/\D/g, '')}>` };
  return [md`-# Last changed by ${by} <t:${Math.floor(changed.at.getTime() / 1000)}:R>.`];
}

/** What an officer has just changed, and what it does not touch. */
export function changedView(before: ClubSettings, after: ClubSettings): MessageView {
  const opinions = before.opinionHours === after.opinionHours ? [] : changedHours(before, after);
  const units = unitWords(before) === unitWords(after) ? [] : changedUnits(before, after);
  const swaps = before.swapChannelId === after.swapChannelId ? [] : [changedSwaps(after)];
  const changed = [...opinions, ...units, ...swaps];
  if (changed.length === 0) return privately('It was so already', joined(settingLines(after)));
  return privately('Changed', ...changed);
}

const changedHours = (before: ClubSettings, after: ClubSettings): Markdown[] => [
  md`Second opinions stay open for **${hoursInWords(after.opinionHours)}** from now on; it was ${hoursInWords(before.opinionHours)}.`,
  md`Questions that are open already keep their own time.`,
];

const changedUnits = (before: ClubSettings, after: ClubSettings): Markdown[] => [
  md`Units are **${unitWords(after)}** from now on; they were ${unitWords(before)}.`,
  md`Tanks that are there already keep their own units; their members change them with **/tank edit**.`,
];

const changedSwaps = ({ swapChannelId }: ClubSettings): Markdown =>
  swapChannelId === null
    ? md`New offers of frags are posted where a member makes them. Cards that stand already stay where they are.`
    : md`New offers of frags are posted in ${channel(swapChannelId)} from now on. Cards that stand already stay where they are.`;

export const cannotSwapHereView = (lacks: readonly string[]): MessageView =>
  privately(
    'I cannot post cards here',
    lacks.length > 0
      ? md`I lack **${lacks.join(', ')}** in this channel. Grant it in the channel’s settings under Permissions, then send this again. Nothing was changed.`
      : md`This is a thread, and threads close. Send it in a channel. Nothing was changed.`,
  );

/** For a member who tried to change something. */
export const forOfficersView = ({ settings }: ClubRecord): MessageView =>
  privately(
    'An officer has to do that',
    md`Thank you for looking after the club. Only somebody who may **Manage Server** can change how it is set up, so nothing was changed. Tell an officer what you would like.`,
    md`As it is now: ${joined(settingLines(settings))}`,
  );

export const needsAClubView = (): MessageView =>
  privately(
    'Settings belong to a club',
    md`Use this in a channel of your club’s server: here there is nothing to set.`,
  );
