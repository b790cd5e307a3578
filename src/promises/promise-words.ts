import { joined, md, mentionOf, type ButtonView, type Markdown } from '../discord/message-view.ts';
import type { Coral } from '../knowledge/coral.ts';
import type { Offer } from '../swaps/offer.ts';
import type { KeptPromise } from './promise.ts';

/** A promise as it is told: with what was offered, and the place of somebody who waits. */
export type ShownPromise = {
  promise: KeptPromise;
  offer: Offer;
  place?: number | undefined;
  /** Whether the one who reads it has noted that the other did not come. */
  noShow?: boolean;
  /** Whether the other has noted that the one who reads it did not come. */
  noShowOfMine?: boolean;
  /** It is kept for a ring that not all have answered yet. */
  ringAsked?: boolean;
};

export type Role = 'giver' | 'taker';

/** A moment as every member sees it in their own time. */
export const moment = (at: Date, style: 'f' | 'R' | 'D' = 'f'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});

/** "1st", "2nd", "11th". */
export function ordinal(place: number): string {
  const ten = place % 100;
  const ending = ten >= 11 && ten <= 13 ? 'th' : (['th', 'st', 'nd', 'rd'][place % 10] ?? 'th');
  return `${place}${ending}`;
}

const END = 'The piece was kept until';

/** How a promise stands, in one or two sentences for one of the two. */
export function standing(shown: ShownPromise, role: Role): Markdown {
  const { promise, offer, place, noShow, noShowOfMine, ringAsked } = shown;
  const { state, until, giverSaid, takerSaid, giverId, takerId } = promise;
  const other = mentionOf(role === 'giver' ? takerId : giverId);
  const iSaid = role === 'giver' ? giverSaid : takerSaid;
  const when = until === null ? md`` : md`${moment(until)}, ${moment(until, 'R')}`;
  const noted = joined(
    [
      noShow ? md` You noted that they did not come; only you two and the curators see that.` : md``,
      noShowOfMine ? md` ${other} noted that you did not come; only you two and the curators see that.` : md``,
    ],
    '',
  );
  switch (state) {
    case 'queued':
      return role === 'taker'
        ? md`From ${other}. Every piece is promised just now. When one comes free and your turn has come, it is yours and I tell you at once.${pausedWords(offer)}`
        : md`${other} waits, ${ordinal(place ?? 1)} in the queue.`;
    case 'promised':
      if (ringAsked)
        return md`Kept for a ring with ${other} that not all have answered yet. **/frag rings** shows it; nothing is settled before all say yes.`;
      if (iSaid)
        return md`You said that it changed hands. ${other} can object; without a word from them it counts as handed over from ${when}.`;
      if (giverSaid || takerSaid)
        return md`${other} says that ${role === 'taker' ? md`you have it` : md`they have it`}. If that is not so, say it before ${when}. Without a word from you it counts as handed over then.`;
      return role === 'taker'
        ? md`${other} keeps it for you until ${when}.${noted}`
        : md`You keep one for ${other} until ${when}.${noted}`;
    case 'handed-over':
      return role === 'taker' ? md`${other} gave it to you.` : md`You gave it to ${other}.`;
    case 'released':
      return md`This promise was let go. No harm done: plans change.${noted}`;
    case 'expired':
      return md`${END} ${when}. No harm done: it can be asked for again.${noted}`;
    case 'withdrawn':
      return md`The offer was withdrawn, and the promise with it.${noted}`;
  }
}

const pausedWords = ({ state }: Offer): Markdown =>
  state === 'open' ? md`` : md` The offer is closed at the moment; if it opens again, you still have your place.`;

/** The title of a promise for one of the two. */
export function titleOf({ promise, offer, place, ringAsked }: ShownPromise, role: Role): Markdown {
  const { name } = offer.details;
  const { state, giverSaid, takerSaid } = promise;
  switch (state) {
    case 'queued':
      return role === 'taker' ? md`${name}: you are ${ordinal(place ?? 1)} in the queue` : md`${name}: in the queue`;
    case 'promised':
      if (ringAsked) return md`${name}: kept for a ring`;
      if (giverSaid || takerSaid) return md`${name}: handed over?`;
      return role === 'taker' ? md`${name}: promised to you` : md`${name}: one is promised`;
    case 'handed-over':
      return role === 'taker' ? md`${name}: it is yours` : md`${name}: handed over`;
    case 'released':
    case 'expired':
    case 'withdrawn':
      return md`${name}: this promise is over`;
  }
}

/** What one of the two may do now. `token` tells the buttons of one message from those of another. */
export function buttonsFor({ promise, noShow, ringAsked }: ShownPromise, role: Role, token: string): ButtonView[] {
  const { id, state, giverSaid, takerSaid, extended, threadId, offerId } = promise;
  const button = (label: string, act: string, style?: ButtonView['style']): ButtonView => ({
    label,
    act,
    args: [String(id), token],
    ...(style ? { style } : {}),
  });
  const iSaid = role === 'giver' ? giverSaid : takerSaid;
  const otherSaid = role === 'giver' ? takerSaid : giverSaid;
  const say =
    role === 'giver'
      ? button('I handed it over', 'frag-handed', 'primary')
      : button('I have it', 'frag-have', 'primary');
  const thread = threadId === null ? [button('Open a thread', 'frag-thread')] : [];
  const came = noShow ? [button('They came after all', 'frag-came')] : [];
  // Nobody is asked about it before there was time to meet, nor of a piece that was let go.
  const missed = noShow || /^(promised|passed)-/.test(token) ? came : [button('They did not come', 'frag-no-show')];
  switch (state) {
    case 'queued':
      return role === 'taker' ? [button('Leave the queue', 'frag-release')] : [];
    case 'promised':
      if (ringAsked) return [];
      if (iSaid) return thread;
      if (otherSaid) return [say, button('That is not so', 'frag-not-so', 'danger'), ...thread];
      return [
        say,
        ...thread,
        ...(role === 'giver' && !extended ? [button('A week longer', 'frag-extend')] : []),
        button('Release with a word', 'frag-release'),
        ...missed,
      ];
    case 'handed-over':
      return role === 'taker' ? [button('Start its quarantine', 'frag-arrival', 'primary')] : [];
    case 'released':
    case 'expired':
    case 'withdrawn':
      return [
        ...(role === 'taker' && state !== 'withdrawn'
          ? [{ label: 'I’d like one', act: 'frag-promise', args: [String(offerId)] }]
          : []),
        ...(state === 'expired' ? missed : came),
      ];
  }
}

/** What matters on the day when a piece comes home. */
export function arrivalWords({ offer }: ShownPromise, coral: Coral | undefined): Markdown {
  const { dips, pestsSeen } = offer.details;
  const said = [
    ...(dips === null ? [] : [md`Dips, as declared: ${dips}.`]),
    ...(pestsSeen === null || pestsSeen.length > 0 ? [] : [md`Declared: no pests seen.`]),
  ];
  return joined([
    md`**Tonight: dip, look, hold.** It stays out of the display, in water of its own, until its hold is over. What was declared is no reason to skip that.`,
    ...(coral ? [md`${coral.name}: ${coral.swap}`] : []),
    ...(coral?.caution ? [md`**Mind:** ${coral.caution}`] : []),
    ...(said.length > 0 ? [joined(said, ' ')] : []),
    md`-# Never release any of it, or its water, into the wild.`,
  ]);
}
