import { ActRefused, inAList } from './act-refused.ts';
import { everyPart, LOADING } from './message-body.ts';
import type { Part } from './message-body.ts';
import type { Picked } from './picked.ts';
import type { World } from './world.ts';
import type { WorldChannel, WorldMember, WorldMessage } from './world-shapes.ts';

// What is on a member's screen, newest first.

/** The messages a member can see, newest first; placeholders have nothing to use. */
export const visibleMessages = (world: World, member: WorldMember): WorldMessage[] =>
  world
    .visibleTo(member)
    .filter(({ flags }) => !(flags & LOADING))
    .reverse();

export const partOn = (message: WorldMessage, fits: (part: Part) => boolean): { message: WorldMessage; part: Part }[] =>
  [...everyPart(message.components)].filter(fits).map((part) => ({ message, part }));

/** Whether a button carries a label; one that ends in `…` gives only the beginning. */
export function isLabelled(part: Part, label: string): boolean {
  if (part.type !== 2) return false;
  const wanted = label.trim().toLowerCase();
  const unfinished = /(…|\.\.\.)$/;
  const beginning = wanted.replace(unfinished, '');
  // The label may be given with or without the emoji before it.
  const own = [part.label, [part.emoji?.name, part.label].filter(Boolean).join(' ')].map((one) =>
    (one ?? '').trim().toLowerCase(),
  );
  return own.some((one) => one === wanted || (unfinished.test(wanted) && one.startsWith(beginning)));
}

/** The place that a name means to a member. */
export function placeNamed(world: World, member: WorldMember, name: string): WorldChannel {
  if (name === 'dm') return world.channels.directWith(member);
  const channel = world.channels.get(name) ?? world.channels.named(name);
  if (channel && world.canSee(member, channel)) return channel;
  const visible = world.channels.all().filter((one) => one.type !== 1 && world.canSee(member, one));
  throw new ActRefused(`there is no channel "${name}"; there are: ${inAList(visible.map((one) => `#${one.name}`))}`);
}

/** Refuses when nothing can be used in a channel. */
export function requireOpen(world: World, member: WorldMember, channel: WorldChannel): void {
  if (!world.canSee(member, channel)) throw new ActRefused(`${member.name} cannot see #${channel.name}`);
  if (channel.thread?.archived) throw new ActRefused(`the thread "${channel.name}" is closed`);
}

/** The values that were chosen of a select, as far as it really offers them. */
export function offeredSelect(part: Part, chosen: string[], picked: Picked) {
  const least = part.min_values ?? 1;
  const most = part.max_values ?? 1;
  if (chosen.length < least) throw new ActRefused(`"${part.placeholder ?? ''}" needs at least ${least} of its options`);
  if (chosen.length > most) throw new ActRefused(`"${part.placeholder ?? ''}" takes at most ${most} of its options`);
  const values = chosen.map((one) => valueOf(part, one, picked));
  return { values, resolved: picked.resolved() };
}

function valueOf(part: Part, chosen: string, picked: Picked): string {
  switch (part.type) {
    case 5:
      return picked.member(chosen);
    case 6:
      return picked.role(chosen);
    case 7:
      return picked.memberOrRole(chosen);
    case 8:
      return picked.channel(chosen);
    default: {
      const plain = chosen.trim().toLowerCase();
      const options = part.options ?? [];
      const option =
        options.find(({ label }) => label.toLowerCase() === plain) ?? options.find(({ value }) => value === chosen);
      if (option) return option.value;
      throw new ActRefused(
        `"${part.placeholder ?? ''}" does not offer "${chosen}"; there are: ${inAList(options.map(({ label }) => label))}`,
      );
    }
  }
}
