import type { Coral } from '../knowledge/coral.ts';
import type { REACHES } from '../knowledge/coral-words.ts';
import { md, type Markdown } from '../discord/message-view.ts';

/** What each reach means, as far as a keeper has to leave room. */
const REACH: Readonly<Record<(typeof REACHES)[number], string | null>> = {
  none: null,
  short: 'about 2 cm',
  medium: 'up to 6 cm',
  long: 'up to 15 cm',
  'very-long': 'more than 15 cm',
};

const ARRIVAL = md`**When it comes home:** dip it, look for pests and eggs, and hold it apart before it joins your tank. **/quarantine start** counts the days.`;
const WILD = md`**Never let any of it go into the wild**, nor its water: not into the sea, not down a storm drain.`;
const UNKNOWN = md`**Not in my books.** Until you know better, handle it as if it could sting and hold poison: gloves, goggles, no boiling, no scrubbing. Give it room on every side and a rock of its own. Stony corals need papers to cross a border.`;

/** What a card says in short, where it matters; what can hurt people comes first. */
export function shortWarnings(coral: Coral | undefined): Markdown[] {
  if (!coral) return [UNKNOWN, ARRIVAL, WILD];
  const reach = REACH[coral.reach];
  const wins = coral.strength === 'kills-most' ? 'kills most of what it touches' : 'stings hard';
  const when = coral.careFlags.includes('sweepers') ? ', mostly at night,' : '';
  return [
    ...(coral.palytoxin && coral.caution ? [md`**⚠ Poison:** ${coral.caution}`] : []),
    ...(coral.containment ? [md`**It creeps:** give it a rock of its own, with bare sand around it.`] : []),
    ...(reach !== null && coral.strength !== 'weak'
      ? [md`**It reaches ${reach}**${when} and ${wins}: leave that much room.`]
      : []),
    ...(coral.chemical ? [md`**It harms stony corals through the water**, without touching them.`] : []),
    ...(coral.citesAppendixII
      ? [md`**Not across a border** without asking: corals of this kind may need papers, even one piece.`]
      : []),
    ARRIVAL,
    WILD,
  ];
}

/** Everything that the books say for whoever takes a piece home, or cuts one. */
export function wholeWarnings(coral: Coral | undefined): Markdown[] {
  if (!coral) return [UNKNOWN, ARRIVAL, WILD];
  const { caution, swap, place, neighbours, feed, permit, palytoxin } = coral;
  return [
    ...(caution ? [md`**${palytoxin ? '⚠ Poison' : 'Mind yourself'}:** ${caution}`] : []),
    md`**Cutting, dip and arrival:** ${swap}`,
    md`**Where to put it:** ${place}`,
    md`**Beside whom:** ${neighbours}`,
    ...(feed ? [md`**Feeding:** ${feed}`] : []),
    ...(permit ? [md`**Borders:** ${permit}`] : []),
    WILD,
  ];
}
