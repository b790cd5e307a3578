import { ActRefused, inAList } from './act-refused.ts';
import { playAct, playSaying } from './act-played.ts';
import type { ActDeps } from './act-played.ts';
import { isLabelled, offeredSelect, partOn, placeNamed, requireOpen, visibleMessages } from './screen.ts';
import type { Part } from './message-body.ts';
import { modalAnswers } from './modal-answers.ts';
import { messagePayload } from './payloads.ts';
import { createPicked } from './picked.ts';
import type { ActResult, Actor, TypedOptions } from './room.ts';
import { sayInChannel } from './saying.ts';
import { seeMessage } from './seen-message.ts';
import { commandsFor, findCommand, sentOptions } from './typed-command.ts';
import type { WorldMember, WorldMessage } from './world-shapes.ts';

/** One member acting through what is on their screen: what is not rendered for them cannot be used. */
export function createActor(deps: ActDeps, member: WorldMember): Actor {
  const { world, interactions } = deps;
  let place = () => world.mainChannel();
  const picked = (channelId: string) => createPicked(world, deps.origin, channelId);
  const act = (begin: Parameters<typeof playAct>[2]) => playAct(deps, member, begin);
  const refuse = (error: string): Promise<ActResult> => Promise.resolve({ replies: [], error });

  const command = (typed: string, options: TypedOptions, typing: boolean) =>
    act(() => {
      const channel = place();
      requireOpen(world, member, channel);
      const found = findCommand(commandsFor(world, member, channel, 1), typed);
      const choice = picked(channel.id);
      const sent = sentOptions(found, options, choice, typing);
      const { id, name, guildId } = found.command;
      const full = [name, ...found.path.map((one) => one.name)].join(' ');
      const data = {
        id,
        name,
        type: 1,
        options: sent,
        ...choice.resolved(),
        ...(guildId ? { guild_id: guildId } : {}),
      };
      return interactions.start(
        { type: typing ? 4 : 2, name: full, memberId: member.id, channelId: channel.id, sourceId: null },
        data,
      );
    });

  const component = (message: WorldMessage, part: Part, data: Record<string, unknown> = {}) => {
    const channel = world.channels.get(message.channelId);
    if (channel) requireOpen(world, member, channel);
    if (part.disabled) throw new ActRefused(`"${part.label ?? part.placeholder ?? part.custom_id}" is disabled`);
    if (part.url) throw new ActRefused(`"${part.label}" is a link; it opens ${part.url}`);
    return interactions.start(
      { type: 3, name: '', memberId: member.id, channelId: message.channelId, sourceId: message.id },
      { custom_id: part.custom_id, component_type: part.type, id: part.id, ...data },
      { message: messagePayload(world, message) },
    );
  };

  const choose = (message: WorldMessage, part: Part, chosen: string[]) => {
    const choice = picked(message.channelId);
    const { values, resolved } = offeredSelect(part, chosen, choice);
    return component(message, part, { values, ...resolved });
  };

  return {
    name: member.name,
    goTo(channel) {
      const found = placeNamed(world, member, channel);
      place = () => found;
    },
    slash: (typed, options) => command(typed, options, false),
    autocomplete: (typed, options) =>
      options.length ? command(typed, options, true) : refuse('nothing is being typed'),
    press: (label) =>
      act(() => {
        const found = visibleMessages(world, member).flatMap((message) =>
          partOn(message, (part) => isLabelled(part, label)),
        );
        const [newest] = found;
        if (newest) return component(newest.message, newest.part);
        const buttons = visibleMessages(world, member).map((message) => seeMessage(world, message, member).buttons);
        const latest = buttons.find((some) => some.length) ?? [];
        throw new ActRefused(
          `there is no button "${label}"; the newest message with buttons has: ${inAList(latest.map((one) => one.label))}`,
        );
      }),
    pressExactly: (messageId, customId) =>
      act(() => {
        const { message, part } = exactly(messageId, customId);
        return component(message, part);
      }),
    choose: (select, options) =>
      act(() => {
        const plain = select.toLowerCase();
        const fits = (part: Part) =>
          part.type !== 2 && (part.custom_id === select || part.placeholder?.toLowerCase() === plain);
        const [newest] = visibleMessages(world, member).flatMap((message) => partOn(message, fits));
        if (newest) return choose(newest.message, newest.part, options);
        const selects = visibleMessages(world, member).flatMap((message) => seeMessage(world, message, member).selects);
        throw new ActRefused(
          `there is no select "${select}"; there are: ${inAList(selects.map((one) => one.placeholder))}`,
        );
      }),
    chooseExactly: (messageId, customId, values) =>
      act(() => {
        const { message, part } = exactly(messageId, customId);
        return choose(message, part, values);
      }),
    fill: (fields, files = {}) =>
      act(() => {
        const modal = interactions.modals.get(member.id);
        if (!modal) throw new ActRefused('no form is open');
        const choice = picked(modal.channelId);
        const components = modalAnswers(modal, { fields, files }, choice);
        interactions.closeModal(member.id);
        const source = modal.messageId === null ? undefined : world.messages.get(modal.messageId);
        return interactions.start(
          { type: 5, name: '', memberId: member.id, channelId: modal.channelId, sourceId: source?.id ?? null },
          { custom_id: modal.customId, components, ...choice.resolved() },
          source ? { message: messagePayload(world, source) } : {},
        );
      }),
    say: (text, options = {}) =>
      playSaying(deps, member, () => {
        const channel = options.channel === undefined ? place() : placeNamed(world, member, options.channel);
        return sayInChannel(world, deps.origin, member, channel, text, options.files ?? []);
      }),
    menu: (entry, messageId) =>
      act(() => {
        const channel = place();
        const others = visibleMessages(world, member).filter((one) => one.viewerId === null);
        const target = others.find((one) =>
          messageId === undefined ? one.authorId !== member.id && one.channelId === channel.id : one.id === messageId,
        );
        if (!target) throw new ActRefused('there is no message to use that on');
        const entries = commandsFor(world, member, channel, 3);
        const found = entries.find(({ name }) => name.toLowerCase() === entry.toLowerCase());
        if (!found)
          throw new ActRefused(`the menu has no "${entry}"; there are: ${inAList(entries.map(({ name }) => name))}`);
        const { id, name, guildId } = found;
        const resolved = { messages: { [target.id]: messagePayload(world, target) } };
        const data = { id, name, type: 3, target_id: target.id, resolved, ...(guildId ? { guild_id: guildId } : {}) };
        return interactions.start(
          { type: 2, name, memberId: member.id, channelId: target.channelId, sourceId: null },
          data,
        );
      }),
    sees: () =>
      visibleMessages(world, member)
        .toReversed()
        .map((message) => seeMessage(world, message, member)),
  };

  function exactly(messageId: string, customId: string) {
    const message = visibleMessages(world, member).find(({ id }) => id === messageId);
    const [found] = message ? partOn(message, (part) => part.custom_id === customId) : [];
    if (!found) throw new ActRefused('this is not on the screen any more');
    return found;
  }
}
