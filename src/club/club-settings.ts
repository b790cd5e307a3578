/** What a club can set for itself. A new setting is a key here, its default, an option, a line of the view and a column. */
export type ClubSettings = {
  /** How long a second opinion stays open, unless a curator settles it earlier. */
  opinionHours: number;
};

export const DEFAULT_SETTINGS: ClubSettings = { opinionHours: 48 };

/** Less than an hour is no vote; after two weeks nobody waits for an answer any more. */
export const LEAST_OPINION_HOURS = 1;
export const MOST_OPINION_HOURS = 14 * 24;

/** The settings that an officer gives; those left out stay as they are. */
export type SettingsChange = { [Key in keyof ClubSettings]?: ClubSettings[Key] | undefined };

/** The settings of a club as they now are, and who changed them last, if anybody did. */
export type ClubRecord = { settings: ClubSettings; changed: { byId: string; at: Date } | null };

/** Whether a change asks for anything at all. */
export const asksForSomething = (change: SettingsChange): boolean =>
  Object.values(change).some((value) => value !== undefined);
