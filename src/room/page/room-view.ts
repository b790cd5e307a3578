import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { PageAct, PageAnswer, PageCommand, PageMember, PageState } from '../page-shapes.ts';

// What every part of the page can reach without passing it down by hand.

type Actless<T> = T extends { as: string } ? Omit<T, 'as'> : T;
/** An act; the page adds who acts. */
export type OwnAct = Actless<PageAct>;

export type RoomView = {
  state: PageState;
  me: PageMember;
  channel: string;
  /** The commands that may be used in the open place. */
  commands: PageCommand[];
  /** The room's clock, which runs on between two states. */
  now: Date;
  play(act: OwnAct): Promise<PageAnswer>;
  /** Says a line to everybody, screen readers included. */
  announce(words: string): void;
  openChannel(id: string): void;
  /** Puts words into the entry line and moves there. */
  prefill(line: string): void;
  /** Shows a message in the Explain tab. */
  explain(messageId: string): void;
};

export const RoomContext = createContext<RoomView | null>(null);

/** The room as the acting member sees it. */
export function useRoom(): RoomView {
  const room = useContext(RoomContext);
  if (!room) throw new Error('a part of the page stands outside the room');
  return room;
}
