import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { asksForSomething, LEAST_OPINION_HOURS, MOST_OPINION_HOURS } from './club-settings.ts';
import type { ClubStore } from './club.store.ts';
import { changedView, forOfficersView, needsAClubView, settingsView } from './club.view.ts';
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
      ],
      input: z
        .object({ 'opinion-hours': z.int().min(LEAST_OPINION_HOURS).max(MOST_OPINION_HOURS).optional() })
        .transform((given) => ({ opinionHours: given['opinion-hours'] })),
      run: (change, request) => {
        const { guildId, memberId, now } = request;
        if (guildId === null) return needsAClubView();
        const before = clubs.of(guildId);
        if (!asksForSomething(change)) return settingsView(before, isOfficer(request));
        if (!isOfficer(request)) return forOfficersView(before);
        clubs.change(guildId, change, memberId, now);
        return changedView(before.settings, clubs.of(guildId).settings);
      },
    }),
  ];
}
