import type { Quantity, UnreadableWhy, UnreadQuantity } from '../../shared/quantity-text.ts';
import { joined, md, type Markdown, type MessageView } from '../discord/message-view.ts';

/** An option and why its text could not be used. */
export type QuantityProblem = { name: string; outcome: UnreadQuantity };

const WHY: Readonly<Record<Exclude<UnreadableWhy, 'which-unit'>, string>> = {
  empty: 'nothing was given',
  'too-long': 'that is too long for an amount',
  'no-number': 'I found no number where an amount begins',
  'garbled-number': 'I could not tell the number by its dots and commas',
  fraction: 'I cannot read fractions; write 0.5 for a half',
  range: 'that is a span; give me one number, and I say how far it may be off',
  'two-numbers': 'I found more than one number; give me one number with one unit',
  'unknown-unit': 'I do not know that unit',
  'no-density': 'a spoon is no weight; weigh it, or add how dense the powder is, as in “2 tsp at 1.1 g/mL”',
};

const NAMED: Readonly<Record<Quantity, string>> = {
  volume: 'a volume',
  mass: 'a weight',
  alkalinity: 'an alkalinity',
  salinity: 'a salinity',
  temperature: 'a temperature',
  concentration: 'a concentration',
  strength: 'the strength of a solution',
  conductivity: 'a conductivity',
  ph: 'a pH',
  light: 'an amount of light',
  flow: 'a flow',
  length: 'a length',
  duration: 'a time',
  percent: 'a share',
};

/** Every option that could not be used: what was read, what is allowed, an example. Private. */
export function quantityProblemView(problems: readonly QuantityProblem[]): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      { kind: 'text', text: md`## I couldn’t use that` },
      { kind: 'text', text: joined(problems.map(problemLine)) },
      { kind: 'text', text: md`Nothing was changed. Correct it and send the command again.` },
    ],
  };
}

/** One of those lines. */
export function problemLine({ name, outcome }: QuantityProblem): Markdown {
  const { came, allowed, example } = outcome;
  const said = came === '' ? md`` : md` I read “${came}”`;
  return md`- **${name}**:${said}${whatWasWrong(outcome)} Allowed: ${allowed}. For example: **${example}**.`;
}

function whatWasWrong(outcome: UnreadQuantity): Markdown {
  const { came, readAs } = outcome;
  const opening = came === '' ? md` ` : readAs === null || readAs === came ? md`: ` : md` as ${readAs}: `;
  switch (outcome.kind) {
    case 'out-of-range':
      return outcome.perhaps === null
        ? md`${opening}that is outside of what I can answer for.`
        : md`${opening}that is outside of what I can answer for. Did you mean ${outcome.perhaps}? Then write the unit.`;
    case 'wrong-unit':
      return md`${opening}that is ${NAMED[outcome.unitOf]}, and I need ${NAMED[outcome.quantity]}.`;
    case 'unreadable':
      return outcome.why === 'which-unit'
        ? md`${opening}that could be ${outcome.choices.join(' or ')}, which are far apart. Write which.`
        : md`${opening}${WHY[outcome.why]}.`;
  }
}
