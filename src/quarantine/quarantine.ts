/** A group of animals that waits in one water system. The clock belongs to the group, never to one animal. */
export type Quarantine = {
  id: number;
  guildId: string;
  memberId: string;
  channelId: string;
  /** What waits: "two clownfish". */
  animals: string;
  /** Entries of knowledge/fish that it was started for. */
  fish: readonly string[];
  /** An entry of knowledge/plans. */
  plan: string;
  option: string | null;
  /** The tank that they wait in, as its keeper calls it; reminders name it. */
  tank: string | null;
  /** What the label of a bound copper names, in mg/L of copper. */
  copperLabel: CopperLabel | null;
  /** Members besides the keeper who may check in and note. */
  helpers: readonly string[];
  zone: string;
  /** Local time of day of the daily reminder, such as "19:00". */
  timeOfDay: string;
  visibility: 'me' | 'club';
  begunAt: Date;
  /** The quarantine whose place this one takes when it starts. */
  follows: number | null;
  ended: { how: 'finished' | 'called-off'; at: Date } | null;
};

export type CopperLabel = { form: 'chelated' | 'amine'; low: number; high: number };

/** What a member has been told of a quarantine, and what they asked for. */
export type Reminding = {
  /** The names of the reminders that went out last, so that none goes out twice. */
  told: readonly string[];
  /** Until then everything was told or needs no telling any more. */
  until: Date;
  /** The member asked to be reminded then, and not before. */
  later: Date | null;
  /** Daily reminders in a row after which nothing was noted. */
  unanswered: number;
  /** How many entries there were when it was last looked at. */
  seen: number;
};

/** Whether a member keeps these animals or may check in for their keeper. */
export const mayNote = ({ memberId, helpers }: Quarantine, asker: string): boolean =>
  memberId === asker || helpers.includes(asker);

/** More than anybody can look after. */
export const MOST_QUARANTINES = 10;
/** A year of daily check-ins and readings. */
export const MOST_EVENTS = 2_000;
/** Members who may check in besides the keeper. */
export const MOST_HELPERS = 5;
