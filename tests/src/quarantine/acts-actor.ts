// Members who read and press as in the practice room, with the acts as plain functions and no connection between.
import { readCustomId } from '../../../src/discord/custom-id.ts';
import type { Answer } from '../../../src/discord/message-view.ts';
import { render } from '../../../src/discord/render.ts';
import { readMarkup } from '../../../src/room/markup.ts';
import { everyPart, Part } from '../../../src/room/message-body.ts';
import type { Actor, SeenMessage } from '../../../src/room/room.ts';
import type { World } from '../../../src/room/world.ts';
import type { WorldMember } from '../../../src/room/world-shapes.ts';
import { opened } from './quarantine-acts.ts';

export type Presser = Pick<Actor, 'slash' | 'pressExactly' | 'chooseExactly'>;
type Clock = { now: () => Date; advance: (ms: number) => void };

/** A clock that stands still until it is moved. */
export function stillClock(start: Date): Clock {
  let ms = start.getTime();
  return {
    now: () => new Date(ms),
    advance: (by) => {
      ms += by;
    },
  };
}

let shared: ReturnType<typeof opened> | undefined;
let members = 0;

/** One more member of the club that all tests of a file share; a message is read as it would be sent. */
export function actsActor(clock: Clock): Presser {
  shared ??= opened();
  const { send, press } = shared;
  const who = String((members += 1));
  const now = () => ({ now: clock.now() });
  const pressed = async (_messageId: string, customId: string, values?: string[]) => {
    const used = readCustomId(customId);
    if (!used) throw new Error(`not a button of ours: ${customId}`);
    return { replies: [read(press(who, used.act, used.args, now(), values), clock)] };
  };
  return {
    slash: async (command, options) => {
      const given = Object.fromEntries(options.map(({ name, value }) => [name, value]));
      return { replies: [read(send(who, command.replace(/^quarantine /, ''), given, now()), clock)] };
    },
    pressExactly: pressed,
    chooseExactly: pressed,
  };
}

function read(answer: Answer, clock: Clock): SeenMessage {
  if ('kind' in answer) throw new Error('a form or a message for later, which these members do not fill');
  const parts = [...everyPart(render(answer).components.map((each) => Part.parse(each)))];
  const reader = { locale: 'en-GB', zone: 'Europe/London' } as WorldMember;
  const nobody = { members: new Map(), roles: new Map(), channels: new Map(), clock } as unknown as World;
  const words = parts.filter(({ type }) => type === 10).map(({ content }) => content ?? '');
  return {
    ...{ id: 'shown', channelId: 'hall', channelName: 'hall', author: 'bot', to: null, edited: false, images: [] },
    private: answer.audience === 'member',
    text: readMarkup(words.join('\n'), nobody, reader),
    buttons: parts
      .filter(({ type }) => type === 2)
      .map(({ label, custom_id: customId }) => ({
        ...{ label: label ?? '', customId: customId ?? null, url: null, disabled: false, style: 2 },
      })),
    selects: parts
      .filter(({ type }) => type === 3)
      .map(({ custom_id: customId, options }) => ({
        ...{ placeholder: '', customId: customId ?? '', minValues: 1, maxValues: 1 },
        options: (options ?? []).map(({ label, value }) => ({ label, value, description: null })),
      })),
  };
}
