import type { ButtonView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';
import type { Decision } from './decide.ts';
import type { Identified } from './identify.ts';
import type { Sighting } from './session.ts';

/** In a direct message there is no club to ask, so there is no button either. */
export const isInAClub = ({ guildId }: Sighting): boolean => guildId !== null;

/** Opens a second opinion that takes the words and the answers along. */
export const askClubButton = ({ id }: Sighting, style: 'primary' | 'secondary' = 'secondary'): ButtonView => ({
  label: 'Ask the club',
  act: 'ask-club',
  args: [String(id)],
  style,
});

/** The candidates that are worth a line, and a button. */
export const candidatesShown = ({ kind, candidates }: Decision): Decision['candidates'] =>
  kind === 'likely' ? candidates : candidates.filter(({ probability }) => probability >= 0.05);

/** What may have happened, for somebody who is hurt to choose from. */
const HARMS: readonly [label: string, row: string][] = [
  ['Ill after rock or coral work', 'toxin-palytoxin'],
  ['Something in the eye', 'eye-splash'],
  ['Stung', 'sting-serious'],
  ['Spines', 'spines'],
  ['Bristles in the skin', 'irritant-bristles'],
  ['Bitten or pinched', 'bite-pinch'],
];

const sideOf = (pair: LookAlike, id: string) => (pair.a === id ? 'a' : 'b');

/** What stands under the result of a sighting. */
export function buttonsOf(
  sighting: Sighting,
  { decision, evidence }: Identified,
  worst: Critter | undefined,
  canAsk: boolean,
): ButtonView[] {
  const { settle } = decision;
  const sid = String(sighting.id);
  const step = String(sighting.answers.length);
  const isHurt = evidence.hurt.length > 0;
  // People who can look beat more questions where words alone do not tell; whoever is hurt has nothing to wait for.
  const cannotTell = decision.kind === 'cannot-tell' && !isHurt;
  const askClub = isInAClub(sighting) ? [askClubButton(sighting, cannotTell ? 'primary' : 'secondary')] : [];
  const lookButton = (label: string, looksLike: string): ButtonView => ({
    label,
    act: 'look',
    args: [sid, step, settle?.pair.id ?? '', String(settle?.feature ?? 0), looksLike],
  });
  return [
    ...(settle
      ? [
          lookButton('Yes', sideOf(settle.pair, settle.suspect.id)),
          lookButton('No', sideOf(settle.pair, settle.against.id)),
          lookButton('Can’t see', 'skip'),
        ]
      : []),
    ...(isHurt ? HARMS.map(([label, row]): ButtonView => ({ label, act: 'aid', args: [row], style: 'danger' })) : []),
    ...(worst && !isHurt
      ? [{ label: 'First aid', act: 'first-aid', args: [worst.id], style: 'danger' } satisfies ButtonView]
      : []),
    ...(cannotTell ? askClub : []),
    ...(canAsk ? [{ label: 'Ask me questions', act: 'key', args: [sid], style: 'primary' } satisfies ButtonView] : []),
    ...(cannotTell ? [] : askClub),
    ...candidatesShown(decision).map(({ critter }): ButtonView => ({
      label: `Card: ${critter.name}`,
      act: 'card',
      args: [critter.id],
    })),
  ];
}
