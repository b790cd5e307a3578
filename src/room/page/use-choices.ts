import { useEffect, useRef, useState } from 'preact/hooks';
import type { PageChoice, PageCommand, PageOption } from '../page-shapes.ts';
import type { TypedOption } from './command-line.ts';
import { useRoom } from './room-view.ts';

/** How long typing must rest before the bot is asked, in milliseconds. */
const REST = 150;
/** Discord's own limit for choices. */
const MOST = 25;
const ROOM_CHOICES = { user: 6, channel: 7, role: 8, mentionable: 9 };

export type Choices = { choices: PageChoice[]; note: string };
const NONE: Choices = { choices: [], note: '' };

/**
 * What can be chosen for the option being typed: the bot's live suggestions, fixed choices, or members and places of
 * the room. `typed` ends with that option.
 */
export function useChoices(
  command: PageCommand | null,
  option: PageOption | null,
  typed: TypedOption[],
  active: boolean,
): Choices {
  const room = useRoom();
  const [live, setLive] = useState<Choices>(NONE);
  const round = useRef(0);
  const asks = active && command !== null && option?.autocomplete === true;
  const question = asks ? JSON.stringify([command.name, typed]) : '';
  useEffect(() => {
    round.current += 1;
    if (!asks) {
      setLive(NONE);
      return undefined;
    }
    const mine = round.current;
    setLive((before) => ({ ...before, note: 'Looking …' }));
    const ask = async () => {
      const answer = await room.play({ act: 'types', channel: room.channel, command: command.name, options: typed });
      // A slow answer to an earlier question must not replace the newer one.
      if (mine !== round.current) return;
      const choices = (answer.choices ?? []).slice(0, MOST);
      setLive({
        choices,
        note: answer.error ?? (choices.length === 0 ? 'No match. You can send what you typed.' : ''),
      });
    };
    const timer = setTimeout(() => void ask(), REST);
    return () => clearTimeout(timer);
  }, [question, room.channel]);

  if (!active || !option) return NONE;
  if (option.autocomplete) return live;
  const value = typed.at(-1)?.value.toLowerCase() ?? '';
  const own = fixedChoices(option, room.state);
  const fitting = own.filter(({ name }) => name.toLowerCase().includes(value));
  const choices = (fitting.length > 0 ? fitting : own).slice(0, MOST);
  return { choices, note: '' };
}

/** Choices that need no question to the bot. */
function fixedChoices(option: PageOption, state: ReturnType<typeof useRoom>['state']): PageChoice[] {
  const named = (items: { name: string; id: string }[], mark: string) =>
    items.map(({ name }) => ({ name: mark + name, value: mark + name }));
  const channels = state.channels.filter(({ kind }) => kind === 'channel');
  if (option.type === 5) return ['true', 'false'].map((value) => ({ name: value === 'true' ? 'yes' : 'no', value }));
  if (option.type === ROOM_CHOICES.user) return named(state.members, '@');
  if (option.type === ROOM_CHOICES.channel) return named(channels, '#');
  if (option.type === ROOM_CHOICES.role) return named(state.roles, '@');
  if (option.type === ROOM_CHOICES.mentionable) return [...named(state.members, '@'), ...named(state.roles, '@')];
  return option.choices;
}
