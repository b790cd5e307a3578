/** What the fake Discord saw. */
export type DiscordReport = {
  delivered: { channelId: string; body: string }[];
  faults: number;
  lookUps: number;
  deduped: number;
  requests: { what: string; status: number; atMs: number }[];
  breaches: string[];
};
