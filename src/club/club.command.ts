import { z } from 'zod';
import { defineCommand, type AnyCommand, type OptionSpec } from '../discord/command.ts';
import { UNITS } from '../tanks/tank.ts';
import { asksForSomething, LEAST_OPINION_HOURS, MOST_OPINION_HOURS } from './club-settings.ts';
import type { ClubStore } from './club.store.ts';
import { cannotSwapHereView, changedView, forOfficersView, needsAClubView, settingsView } from './club.view.ts';
import { isOfficer } from './officer.ts';

/** `/club settings`: read by everybody, changed by officers. */
export function clubCommands(clubs: ClubStore): AnyCommand[] {
  return [
    defineCommand({
      name: 'club settings',
      description: 'How this club has set the bot up; officers change it here',
      options: [
        {
          kind: 'whole-number',
          name: 'opinion-hours',
          description: 'For officers: how many hours a second opinion stays open (48 is two days, 168 a week)',
          required: false,
          least: LEAST_OPINION_HOURS,
          most: MOST_OPINION_HOURS,
        },
        unitOption('volume-unit', 'volumes', UNITS.volume),
        unitOption('temperature-unit', 'temperatures', UNITS.temperature),
        unitOption('alkalinity-unit', 'alkalinity', UNITS.alkalinity),
        unitOption('salinity-unit', 'salinity', UNITS.salinity),
        {
          name: 'swap-here',
          description: 'For officers: yes posts offers of frags in the channel where you send this; no unsets it',
          required: false,
          choices: ['yes', 'no'],
        },
      ],
      input: z
        .object({
          'opinion-hours': z.int().min(LEAST_OPINION_HOURS).max(MOST_OPINION_HOURS).optional(),
          'volume-unit': z.enum(UNITS.volume).optional(),
          'temperature-unit': z.enum(UNITS.temperature).optional(),
          'alkalinity-unit': z.enum(UNITS.alkalinity).optional(),
          'salinity-unit': z.enum(UNITS.salinity).optional(),
          'swap-here': z.enum(['yes', 'no']).optional(),
        })
        .transform((given) => ({
          opinionHours: given['opinion-hours'],
          volumeUnit: given['volume-unit'],
          temperatureUnit: given['temperature-unit'],
          alkalinityUnit: given['alkalinity-unit'],
          salinityUnit: given['salinity-unit'],
          swapHere: given['swap-here'],
        })),
      run: ({ swapHere, ...given }, request) => {
        const { guildId, channelId, memberId, place, now } = request;
        const swapChannelId = swapHere === undefined ? undefined : swapHere === 'yes' ? channelId : null;
        const change = { ...given, swapChannelId };
        if (guildId === null) return needsAClubView();
        const before = clubs.of(guildId);
        if (!asksForSomething(change)) return settingsView(before, isOfficer(request));
        if (!isOfficer(request)) return forOfficersView(before);
        const lacks = place?.lacks.filter((name) => FOR_CARDS.includes(name)) ?? [];
        if (swapHere === 'yes' && (place?.kind === 'thread' || lacks.length > 0)) return cannotSwapHereView(lacks);
        clubs.change(guildId, change, memberId, now);
        return changedView(before.settings, clubs.of(guildId).settings);
      },
    }),
  ];
}

/** Without these no card can be posted and found again. */
const FOR_CARDS = ['View Channel', 'Send Messages', 'Attach Files', 'Read Message History'];

const unitOption = (name: string, what: string, choices: readonly string[]): OptionSpec => ({
  name,
  description: `For officers: in which unit ${what} are read and typed where a tank says nothing else`,
  required: false,
  choices,
});
