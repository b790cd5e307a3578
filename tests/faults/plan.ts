/** What a started worker is told by its environment. */
export type Plan = { folder: string; apiUrl: string; botId: string; startedMs: number; failpoint: string | undefined };

/** Discord takes so many requests a second from one bot. */
export const GUILD_REQUESTS_A_SECOND = 50;

export const writePlan = ({ folder, apiUrl, botId, startedMs, failpoint }: Plan): Record<string, string> => ({
  FOLDER: folder,
  API_URL: apiUrl,
  BOT_ID: botId,
  STARTED_MS: String(startedMs),
  ...(failpoint === undefined ? {} : { FAILPOINT: failpoint }),
});

export function readPlan(env: NodeJS.ProcessEnv): Plan {
  const { FOLDER, API_URL, BOT_ID, STARTED_MS, FAILPOINT } = env;
  if (!FOLDER || !API_URL || !BOT_ID || !STARTED_MS)
    throw new Error('FOLDER, API_URL, BOT_ID and STARTED_MS are expected in the environment');
  return { folder: FOLDER, apiUrl: API_URL, botId: BOT_ID, startedMs: Number(STARTED_MS), failpoint: FAILPOINT };
}
