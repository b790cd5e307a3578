import { z } from 'zod';
import type { Room } from './open-room.ts';
import type { PageAct, PageAnswer, PageFile } from './page-shapes.ts';
import type { ActResult, Actor, GivenFile } from './room.ts';
import type { WorldMember } from './world-shapes.ts';

/** Longest step of the clock that a person may ask for at once, in milliseconds: a year. */
const LONGEST_STEP = 366 * 86_400_000;

const name = z.string().min(1).max(100);
const id = z.string().max(100);
const file = z.object({ name: z.string().min(1).max(260), alt: z.string().max(1024), base64: z.base64() });
const typed = z.array(z.object({ name, value: z.string().max(6000) })).max(25);

/** What a page may ask, checked where it enters. */
export const PageActBody: z.ZodType<PageAct> = z.discriminatedUnion('act', [
  z.object({
    act: z.literal('say'),
    as: name,
    channel: id,
    text: z.string().max(2000),
    files: z.array(file).max(10).exactOptional(),
  }),
  z.object({
    act: z.literal('slash'),
    as: name,
    channel: id,
    command: name,
    options: typed,
    files: z.record(name, file).exactOptional(),
  }),
  z.object({ act: z.literal('types'), as: name, channel: id, command: name, options: typed }),
  z.object({ act: z.literal('press'), as: name, message: id, customId: id }),
  z.object({ act: z.literal('choose'), as: name, message: id, customId: id, values: z.array(z.string()).max(25) }),
  z.object({
    act: z.literal('fill'),
    as: name,
    fields: z.record(z.string(), z.union([z.string(), z.array(z.string())])),
    files: z.record(z.string(), z.array(file).max(10)).exactOptional(),
  }),
  z.object({ act: z.literal('close-modal'), as: name }),
  z.object({ act: z.literal('menu'), as: name, entry: name, message: id }),
  z.object({ act: z.literal('dismiss'), as: name, message: id }),
  z.object({ act: z.literal('advance'), ms: z.number().int().min(1).max(LONGEST_STEP) }),
  z.object({ act: z.literal('start-over') }),
]);

type MemberAct = Exclude<PageAct, { act: 'advance' | 'start-over' }>;

/** Plays an act of a member through the actor, who may do only what is on the member's screen. */
export async function playMemberAct(room: Room, member: WorldMember, act: MemberAct): Promise<PageAnswer> {
  const actor = room.actor(member.name);
  const away = 'channel' in act ? goTo(room, member, actor, act.channel) : null;
  if (away !== null) return { error: away };
  switch (act.act) {
    case 'say':
      return told(await actor.say(act.text, { files: (act.files ?? []).map(given) }));
    case 'slash': {
      const files = Object.entries(act.files ?? {}).map(([option, one]) => ({
        name: option,
        value: one.name,
        file: given(one),
      }));
      return told(await actor.slash(act.command, [...act.options, ...files]));
    }
    case 'types':
      return told(await actor.autocomplete(act.command, act.options));
    case 'press':
      return told(await actor.pressExactly(act.message, act.customId));
    case 'choose':
      return told(await actor.chooseExactly(act.message, act.customId, act.values));
    case 'fill':
      return fill(room, member, actor, act);
    case 'close-modal':
      room.interactions.closeModal(member.id);
      return {};
    case 'menu':
      return told(await actor.menu(act.entry, act.message));
    case 'dismiss': {
      const message = room.world.messages.get(act.message);
      if (message?.viewerId !== member.id) return { error: 'Only a private answer of your own can be dismissed.' };
      room.world.messages.remove(message);
      return {};
    }
  }
}

/** A refused form stays open, so that nothing typed is lost. */
async function fill(
  room: Room,
  member: WorldMember,
  actor: Actor,
  act: Extract<PageAct, { act: 'fill' }>,
): Promise<PageAnswer> {
  const { modals } = room.interactions;
  const open = modals.get(member.id);
  if (!open) return { error: 'This form is no longer open. Close it and open it again.' };
  const fields = Object.entries(act.fields).map(([field, value]) => [
    field,
    Array.isArray(value) ? value.join(', ') : value,
  ]);
  const files = Object.entries(act.files ?? {}).map(([field, some]) => [field, some.map(given)]);
  const answer = told(await actor.fill(Object.fromEntries(fields), Object.fromEntries(files)));
  if (answer.error !== undefined && !modals.has(member.id)) modals.set(member.id, open);
  return answer;
}

const given = ({ name: called, alt, base64 }: PageFile): GivenFile => ({
  name: called,
  data: Buffer.from(base64, 'base64'),
  ...(alt === '' ? {} : { alt }),
});

function told({ error, choices, replies }: ActResult): PageAnswer {
  const channelId = replies[0]?.channelId;
  return {
    ...(error === undefined ? {} : { error }),
    ...(choices === undefined ? {} : { choices }),
    ...(channelId === undefined ? {} : { channelId }),
  };
}

/** Takes the member to a place; gives back in words why they cannot go there. */
function goTo(room: Room, member: WorldMember, actor: Actor, channelId: string): string | null {
  const channel = room.world.channels.get(channelId);
  if (!channel || !room.world.canSee(member, channel)) return `${member.name} cannot see this place.`;
  actor.goTo(channel.id);
  return null;
}
