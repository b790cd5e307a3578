import { useRoom } from './room-view.ts';

export type Task = { title: string; why: string; line(botName: string): string };

/** First things to try, in plain words. A task fills the entry line; the person still sends it. */
export const TASKS: Task[] = [
  {
    title: 'Ask whether a bristle worm is a pest',
    why: 'The question of every newcomer. The answer says how sure it is and which look-alike to rule out.',
    line: () => '/critter name critter:bristle worm',
  },
  {
    title: 'Misspell it',
    why: 'Nobody spells well at 11 pm. Watch the suggestions while you type.',
    line: () => '/critter name critter:brisle wrom',
  },
  {
    title: 'Compare two look-alikes',
    why: 'One is a cleaner, the other eats corals. What tells them apart?',
    line: () => '/critter compare critter:bristle worm with:bearded fireworm',
  },
  {
    title: 'Ask about zoas',
    why: 'Some animals are a danger to people. That comes before everything else.',
    line: () => '/critter name critter:zoas',
  },
  {
    title: 'Ask by mentioning the bot',
    why: 'No command needed: write to it as to anybody.',
    line: (botName) => `@${botName} is a bristle worm a pest?`,
  },
  {
    title: 'Use a name that means several animals',
    why: 'The answer asks back instead of guessing.',
    line: () => '/critter name critter:fireworm',
  },
  {
    title: 'Lift alkalinity safely',
    why: 'How much of which salt, over how many days, with the sum to check by hand.',
    line: () => '/dose alkalinity now:7.2 target:8.5 volume:80 gal',
  },
  {
    title: 'Bring home two clownfish',
    why: 'Which quarantine fits and why. Start it, then move the clock and see the reminders.',
    line: () => '/quarantine start animals:two clownfish',
  },
];

/** The list of first things to try. */
export function TryThis() {
  const { state, prefill } = useRoom();
  const botName = state.members.find(({ id }) => id === state.botId)?.name ?? 'bot';
  return (
    <>
      <p>Pick one. It is written into the entry line for you; press Enter to send it.</p>
      <ol class="tasks">
        {TASKS.map(({ title, why, line }) => (
          <li key={title}>
            <button type="button" class="button" onClick={() => prefill(line(botName))}>
              {title}
            </button>
            <p class="small">{why}</p>
          </li>
        ))}
      </ol>
      <p class="small">Then play another member, move the clock, or ask about something from your own tank.</p>
    </>
  );
}
