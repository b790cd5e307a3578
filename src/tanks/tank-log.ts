/** What was measured: a value in the unit of its parameter. */
export type Reading = {
  kind: 'reading';
  id: number;
  guildId: string;
  tankId: number;
  /** An entry of knowledge/parameters. */
  parameter: string;
  value: number;
  /** What it was measured with, in the member's words. */
  kit: string | null;
  /** What that may be off by, either way, in the unit of the parameter; null: as kits of its kind are. */
  kitError: number | null;
  at: Date;
};

/** Amounts by parameter, in its unit. */
export type ByParameter = Readonly<Record<string, number>>;

/** What a dose does: `rise` in every litre, or `total` in all the water together (mg, or dKH times litres). */
export type DoseEffect = { by: 'rise' | 'total'; of: ByParameter };

/** What was put in, once or on several days in a row of which `at` is the last. */
export type Dose = {
  kind: 'dose';
  id: number;
  guildId: string;
  tankId: number;
  /** "20 g sodium hydrogencarbonate", as it was understood. */
  what: string;
  effect: DoseEffect;
  days: number;
  at: Date;
};

/** A share of the water that was taken out and replaced. */
export type WaterChange = {
  kind: 'water-change';
  id: number;
  guildId: string;
  tankId: number;
  /** Between 0 and 1. */
  share: number;
  /** What the new water held; a parameter that is absent was not said. */
  newWater: ByParameter;
  at: Date;
};

export type LogEntry = Reading | Dose | WaterChange;
type New<Entry> = Omit<Entry, 'id' | 'guildId' | 'tankId'>;
export type NewLogEntry = New<Reading> | New<Dose> | New<WaterChange>;

/** Readings, doses and changes together; then the oldest would have to go. */
export const MOST_ENTRIES = 2_000;

/** How much a dose raises a parameter in this much water. */
export const riseOf = ({ effect: { by, of } }: Pick<Dose, 'effect'>, parameter: string, volumeL: number): number =>
  (of[parameter] ?? 0) / (by === 'rise' ? 1 : volumeL);
