import { joined, md, type Block, type MessageView } from '../discord/message-view.ts';
import { isIn, type RingArc, type SwapRing } from './ring.ts';
import { arcsInWords, fromOwn, inLetters, momentOf, rings, yesesInWords } from './ring-words.ts';
import { answerButtons, buttons, privately, saysView, text } from './ring.view.ts';
import type { Planned } from './plan-apart.ts';
import { planWords } from '../rings/plan-words.ts';

const MOST_SHOWN = 12;
const MOST_OWN = 3;

export type RingsShown = {
  planned: Planned;
  /** Proposed and agreed ones of the club. */
  open: readonly SwapRing[];
  memberId: string;
  /** Sees all rings, and may put them to their members. */
  mayPropose: boolean;
  /** `name`: of its file, one for each picture of a message. */
  pictureOf: (arcs: readonly RingArc[], name: string) => Block;
};

const titleOf = (arcs: readonly RingArc[]) =>
  arcs.length === 2 ? md`**Between two:**` : md`**A ring of ${inLetters(arcs.length)}:**`;

/** The rings that there are now: how many, and those with whoever asks. */
export function ringsView({ planned, open, memberId, mayPropose, pictureOf }: RingsShown): MessageView {
  const { plan, rings: found } = planned;
  const mine = open.filter((ring) => isIn(ring, memberId)).sort((one, other) => waitsFirst(one) - waitsFirst(other));
  const possible = found.find((arcs) => isIn({ arcs }, memberId));
  const shown = mayPropose ? found.slice(0, MOST_SHOWN) : [];
  const waiting = open.filter(({ state }) => state === 'proposed').length;
  const agreed = open.length - waiting;
  return privately('calm', [
    text(md`## Rings of swaps`),
    text(
      found.length > 0
        ? md`**${rings(found.length)} could be closed now:** ${planWords(plan)}.`
        : md`**No ring can be closed now.** Every new offer and every new wish can make one.`,
    ),
    ...(waiting > 0 ? [text(md`${rings(waiting)} ${waiting === 1 ? 'waits' : 'wait'} for answers.`)] : []),
    ...(agreed > 0 ? [text(md`${rings(agreed)} ${agreed === 1 ? 'is' : 'are'} agreed and on the way.`)] : []),
    ...mine.slice(0, MOST_OWN).flatMap((ring) => ownBlocks(ring, memberId, pictureOf)),
    ...(mine.length === 0 && possible
      ? [
          text(joined([md`**One with you.** ${titleOf(possible)}`, arcsInWords(fromOwn(possible, memberId))])),
          pictureOf(possible, 'ring.png'),
          text(
            md`Nobody is asked yet. I ask all in it at night (03:00 UTC), or when an officer or curator has the rings proposed.`,
          ),
        ]
      : []),
    ...(mine.length === 0 && !possible
      ? [
          text(
            md`**None with you.** A ring needs both: a piece you give (**/frag offer**) and something you look for (**/frag want**). “Any soft coral” is found more often than one exact name.`,
          ),
        ]
      : []),
    ...shown.filter((arcs) => arcs !== possible).map((arcs) => text(joined([titleOf(arcs), arcsInWords(arcs)]), 2)),
    ...(mayPropose && found.length > shown.length ? [text(md`-# and ${found.length - shown.length} more`, 1)] : []),
    ...(mayPropose && found.length > 0
      ? [
          text(
            md`**Propose these** asks everybody in them by direct message. They have 48 hours, and the pieces are kept meanwhile.`,
          ),
          buttons({ label: 'Propose these', act: 'frag-rings-propose', args: [], style: 'primary' }),
        ]
      : []),
  ]);
}

/** What waits for an answer comes before what is agreed. */
const waitsFirst = ({ state }: SwapRing): number => (state === 'proposed' ? 0 : 1);

function ownBlocks(ring: SwapRing, memberId: string, pictureOf: RingsShown['pictureOf']): Block[] {
  const isOpen = ring.state === 'proposed';
  const state = isOpen
    ? md`${yesesInWords(ring)}; answers until ${momentOf(ring.until)}.`
    : md`Agreed by all. **/frag promises** has what you give and get.`;
  return [
    text(joined([md`**With you.** ${titleOf(ring.arcs)}`, arcsInWords(fromOwn(ring.arcs, memberId)), state])),
    pictureOf(ring.arcs, `ring-${ring.id}.png`),
    ...(isOpen ? [answerButtons(ring, memberId)] : []),
  ];
}

/** What came of "Propose these". */
export function proposedView(proposed: readonly SwapRing[], { plan }: Planned): MessageView {
  if (proposed.length === 0)
    return saysView(
      'Nothing to propose',
      md`No ring can be closed now. Those who are in a ring that waits for answers are not asked a second time.`,
    );
  const members = proposed.flatMap(({ arcs }) => arcs).length;
  return privately('calm', [
    text(md`## ${rings(proposed.length)} proposed`),
    text(md`The plan ${planWords(plan)}. I have asked ${members} members by direct message; they have 48 hours.`),
    ...proposed.slice(0, MOST_SHOWN).map(({ arcs }) => text(joined([titleOf(arcs), arcsInWords(arcs)]), 2)),
    text(
      md`When all in a ring say yes, each hears whom to meet. When one would rather not, the pieces are free again and the next best ring is looked for.`,
    ),
  ]);
}
