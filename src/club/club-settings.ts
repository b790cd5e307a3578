import { DEFAULT_UNITS, type TankUnits } from '../tanks/tank.ts';

/** What a club can set for itself. A new setting is a key here, its default, an option, a line of the view and a column. */
export type ClubSettings = {
  /** How long a second opinion stays open, unless a curator settles it earlier. */
  opinionHours: number;
  /** In which units members read and type, where no tank of theirs says otherwise. */
  volumeUnit: TankUnits['volume'];
  temperatureUnit: TankUnits['temperature'];
  alkalinityUnit: TankUnits['alkalinity'];
  salinityUnit: TankUnits['salinity'];
  /** Where offers of frags are posted; null: where each was asked for. */
  swapChannelId: string | null;
};

export const DEFAULT_SETTINGS: ClubSettings = {
  opinionHours: 48,
  volumeUnit: DEFAULT_UNITS.volume,
  temperatureUnit: DEFAULT_UNITS.temperature,
  alkalinityUnit: DEFAULT_UNITS.alkalinity,
  salinityUnit: DEFAULT_UNITS.salinity,
  swapChannelId: null,
};

/** The units of a club, as calculators and new tanks take them. */
export const unitsOfClub = (settings: ClubSettings): TankUnits => ({
  volume: settings.volumeUnit,
  temperature: settings.temperatureUnit,
  alkalinity: settings.alkalinityUnit,
  salinity: settings.salinityUnit,
});

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
