import { asRead } from '../../../src/room/as-read.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import { createPainter } from '../../../src/drawing/painter.ts';
import { built } from '../../set-up-build.ts';
import { openClub } from '../../set-up-club.ts';

function realPaint() {
  const workerFile = built('painter.js');
  const fontFiles = ['inter-regular.ttf', 'inter-semibold.ttf'].map((font) => built(`font/${font}`));
  const painter = createPainter({ workerFile, fontFiles });
  return (svg: string, width: number) => painter.paint(svg, width);
}

/** A club with Ana who keeps tanks, Ben who looks, and Olu the officer; charts are really painted. */
export async function openTankClub() {
  const club = await openClub({ paint: realPaint() });
  const { room } = club;
  return {
    ...club,
    ana: room.actor('Ana'),
    ben: room.actor('Ben'),
    olu: room.actor('Olu', { name: 'Olu', roles: ['officer'] }),
  };
}

/** Sends `/tank …` and hands back the one private answer, as a reader sees it. */
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
  return { ...reply, text: asRead(reply.text) };
}

export const labels = ({ buttons }: SeenMessage): string[] => buttons.map(({ label }) => label);
