import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { openClub } from '../../set-up-club.ts';

/** A club with Ana who keeps tanks, Ben who looks, and Olu the officer. */
export async function openTankClub(options: Parameters<typeof openClub>[0] = {}) {
  const club = await openClub(options);
  const { room } = club;
  return {
    ...club,
    ana: room.actor('Ana'),
    ben: room.actor('Ben'),
    olu: room.actor('Olu', { name: 'Olu', roles: ['officer'] }),
  };
}

/** Sends `/tank …` and hands back the one private answer. */
export async function tank(who: Actor, verb: string, given: Record<string, string> = {}): Promise<SeenMessage> {
  const { replies, error } = await who.slash(
    `tank ${verb}`,
    Object.entries(given).map(([name, value]) => ({ name, value })),
  );
  return onlyReply(replies, error);
}

export async function press(who: Actor, label: string): Promise<SeenMessage> {
  const { replies, error } = await who.press(label);
  return onlyReply(replies, error);
}

function onlyReply([reply, ...more]: readonly SeenMessage[], error: string | undefined): SeenMessage {
  if (error !== undefined || !reply || more.length > 0) throw new Error(error ?? 'expected one answer');
  if (!reply.private) throw new Error('a tank was spoken of in public');
  return reply;
}

export const labels = ({ buttons }: SeenMessage): string[] => buttons.map(({ label }) => label);
