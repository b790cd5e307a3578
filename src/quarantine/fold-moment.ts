/** A point from which something is counted. */
export type Moment = {
  at: Date;
  /** It has not happened yet; `at` is when it is expected at the earliest. */
  projected: boolean;
  /** As it stands after "counted from". */
  says: string;
};

export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

export const hoursAfter = (at: Date, hours: number) => new Date(at.getTime() + hours * HOUR_MS);
export const later = (a: Date, b: Date) => (a > b ? a : b);
