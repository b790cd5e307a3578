import { drawDemoPhoto } from './demo-photo.ts';
import type { Room } from './open-room.ts';
import type { MemberSpec } from './room.ts';

// The club of the practice room. Club, people and talk are invented.

/** The members of the demo club. The first is who a visitor plays at first. */
export const DEMO_MEMBERS: MemberSpec[] = [
  { name: 'Ines', zone: 'Europe/Lisbon', locale: 'en-GB' },
  { name: 'Tom', zone: 'Europe/London', locale: 'en-GB' },
  { name: 'Maren', roles: ['curator'], zone: 'Europe/Berlin', locale: 'en-GB' },
  { name: 'Olu', roles: ['officer'], zone: 'Africa/Lagos', locale: 'en-GB' },
  { name: 'Petra', dmClosed: true, zone: 'America/Chicago', locale: 'en-US' },
];

type Line = { by: string; channel: string; minutesAgo: number; text: string; photo?: string };

const PHOTO_ALT =
  'A grainy photo by torch light: an orange-brown worm with rows of white tufts along both sides, half out of a hole in the rock.';

const TALK: Line[] = [
  {
    by: 'Olu',
    channel: 'ask',
    minutesAgo: 182,
    text: 'Welcome, Tom! Ask anything in here. Nobody was born knowing this.',
  },
  {
    by: 'Tom',
    channel: 'ask',
    minutesAgo: 176,
    text: 'Thanks! Tank is eight weeks old, 120 litres, two clownfish and a handful of zoas.',
  },
  { by: 'Ines', channel: 'ask', minutesAgo: 171, text: 'Zoas first, brave. **Gloves on** when you cut them.' },
  {
    by: 'Maren',
    channel: 'swap',
    minutesAgo: 140,
    text: 'I have six small toadstool cuttings on plugs. They stay with me until they have been clean for two weeks.',
  },
  {
    by: 'Petra',
    channel: 'swap',
    minutesAgo: 131,
    text: 'One for me, please. I keep direct messages closed, so write to me here.',
  },
  {
    by: 'Tom',
    channel: 'ask',
    minutesAgo: 24,
    text: 'This came out of the new rock after lights out. About as long as my finger. Is it going to eat my corals?',
    photo: PHOTO_ALT,
  },
  {
    by: 'Ines',
    channel: 'ask',
    minutesAgo: 21,
    text: 'Do not grab it with bare fingers. Maren will know, but she is at work until late.',
  },
];

/** Declares the members and lays down what they said before the visitor came in. None of it speaks to the bot. */
export function seedDemoClub(room: Room): void {
  const { world } = room;
  for (const spec of DEMO_MEMBERS) world.members.declare(spec);
  const now = room.clock.now().getTime();
  for (const { by, channel: place, minutesAgo, text, photo } of TALK) {
    const author = world.members.named(by);
    const channel = world.channels.named(place);
    if (!author || !channel) throw new Error(`the demo club lacks ${by} or #${place}`);
    const attachments = photo
      ? [
          world.messages.keepFile(room.origin, channel.id, {
            name: 'night-find.png',
            type: 'image/png',
            data: drawDemoPhoto(),
            alt: photo,
          }),
        ]
      : [];
    const message = world.messages.add({ channelId: channel.id, authorId: author.id, content: text, attachments });
    message.createdAt = new Date(now - minutesAgo * 60_000);
  }
}
