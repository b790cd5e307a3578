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
  zone: string;
  visibility: 'me' | 'club';
  begunAt: Date;
  ended: { how: 'finished' | 'called-off'; at: Date } | null;
};

/** More than anybody can look after. */
export const MOST_QUARANTINES = 10;
/** A year of daily check-ins and readings. */
export const MOST_EVENTS = 2_000;
