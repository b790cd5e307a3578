import type { OutOfRange } from '../../shared/range.ts';
import { shortly } from '../../shared/units/figures.ts';
import { joined, md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { ChosenTank } from '../tanks/tank-option.ts';

const LONGEST_SHOWN = 40;
const MOST_NAMED = 10;

/** A private message that something could not be answered, and what would help. */
export const cannotView = (title: string, lines: readonly Markdown[]): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [
    { kind: 'text', text: md`## ${title}` },
    { kind: 'text', text: joined(lines) },
  ],
});

/** Which tank is meant cannot be told, or there is none and no volume was given. */
export function whichTankView(chosen: ChosenTank): MessageView {
  switch (chosen.kind) {
    case 'unknown':
      return cannotView('I don’t know that tank', [
        md`You have none called “${shortened(chosen.typed)}”.`,
        md`Yours: ${named(chosen)}.`,
      ]);
    case 'which':
      return cannotView('Which of your tanks?', [
        md`You have several: ${named(chosen)}.`,
        md`Add **tank:** with the name, or **volume:** with the net water, such as **volume: 300 L**.`,
      ]);
    case 'no-tanks':
    case 'tank':
      return cannotView('How much water?', [
        md`Add **volume:** with the net water, without rock and sand, such as **volume: 300 L** or **volume: 80 gal**.`,
        md`-# Do you not know it? **/water volume** works it out. **/tank add** keeps it for next time.`,
      ]);
  }
}

const shortened = (text: string) =>
  text.length <= LONGEST_SHOWN ? text : `${text.slice(0, LONGEST_SHOWN - 1).toWellFormed()}…`;

function named({ tanks }: { tanks: readonly { name: string }[] }): Markdown {
  return joined(
    tanks.slice(0, MOST_NAMED).map(({ name }) => md`**${name}**`),
    ', ',
  );
}

/** What a calculator refuses, in the words of the option it came from. */
export function outOfRangeView({ quantity, given, least, most }: OutOfRange, example: Markdown): MessageView {
  const what = quantity.replace(/(CmError|CmE|MgPerL|LPerH|PerH|Cm|Kg|L|C|H)$/, '').replace(/([A-Z])/g, ' $1');
  return cannotView('I couldn’t use that', [
    md`- **${what.toLowerCase()}**: I read ${shortly(given)}. Allowed: ${shortly(least)} to ${shortly(most)}.`,
    md`For example: ${example}`,
  ]);
}
