import {
  joined,
  md,
  mentionOf,
  type Block,
  type ButtonView,
  type Markdown,
  type MessageView,
} from '../discord/message-view.ts';
import { partOf, type SwapRing } from './ring.ts';
import { arcsInWords, fromOwn, inLetters, momentOf, partInWords, yesesInWords } from './ring-words.ts';

export const text = (words: Markdown, fold = 0): Block => ({
  kind: 'text',
  text: words,
  ...(fold > 0 ? { fold } : {}),
});
export const buttons = (...list: ButtonView[]): Block => ({ kind: 'buttons', buttons: list });
export const privately = (tone: MessageView['tone'], blocks: readonly Block[]): MessageView => ({
  audience: 'member',
  tone,
  blocks,
});

/** A short answer. */
export const saysView = (title: string, words: Markdown): MessageView =>
  privately('plain', [text(md`## ${title}`), text(words)]);

const argsOf = ({ guildId, id }: SwapRing): string[] => [guildId, String(id)];
export const answerButtons = (ring: SwapRing, memberId: string): Block =>
  ring.answers[memberId]?.said === 'yes'
    ? buttons({ label: 'Rather not', act: 'frag-ring-no', args: argsOf(ring) })
    : buttons(
        { label: 'Yes', act: 'frag-ring-yes', args: argsOf(ring), style: 'primary' },
        { label: 'No, thanks', act: 'frag-ring-no', args: argsOf(ring) },
      );

const greeting = (memberId: string): Markdown => md`-# For ${mentionOf(memberId)}`;

/** The question to one member of a ring, and later what became of it. `care`: what to mind with the piece that they get. */
export function ringAskView(
  ring: SwapRing,
  memberId: string,
  { care, where }: { care: readonly Markdown[]; where: Markdown | null },
): MessageView {
  const part = partOf(ring, memberId);
  if (!part) return saysView('A swap', md`It is no longer there.`);
  const count = inLetters(ring.arcs.length);
  const title = ring.arcs.length === 2 ? md`## A swap between two` : md`## A swap in a ring of ${count}`;
  if (ring.state !== 'proposed')
    return privately('plain', [
      text(title),
      text(partInWords(part)),
      text(ring.state === 'dissolved' ? md`It did not come about.` : md`**All ${count} said yes.**`),
      text(greeting(memberId)),
    ]);
  const own = ring.answers[memberId]?.said === 'yes';
  return privately('calm', [
    text(title),
    text(partInWords(part)),
    ...(where ? [text(where)] : []),
    text(
      own
        ? md`**You said yes.** ${yesesInWords(ring)}; the others have until ${momentOf(ring.until)}.`
        : md`Answer until ${momentOf(ring.until)} (${momentOf(ring.until, 'R')}). The pieces are kept for you until then. It comes about when all ${count} say yes, and a no is no trouble: nobody hears who said it.`,
    ),
    ...(ring.arcs.length > 2
      ? [text(joined([md`The whole ring:`, arcsInWords(fromOwn(ring.arcs, memberId))]), 2)]
      : []),
    ...(own ? [] : care.map((words, at) => text(words, at === 0 ? 0 : 3))),
    answerButtons(ring, memberId),
    text(joined([greeting(memberId), md`-# **/frag rings** shows it again.`])),
  ]);
}

/** All said yes: who meets whom. */
export function agreedView(
  ring: SwapRing,
  memberId: string,
  care: readonly Markdown[],
  where: Markdown | null,
): MessageView {
  const part = partOf(ring, memberId);
  const count = inLetters(ring.arcs.length);
  if (!part) return saysView('A swap', md`It is agreed.`);
  const meets =
    part.gives.to === part.gets.from
      ? md`You meet ${mentionOf(part.gives.to)}.`
      : md`You meet ${mentionOf(part.gives.to)}, who gets your piece, and ${mentionOf(part.gets.from)}, who has yours. One place for all ${count} is quickest.`;
  return privately('calm', [
    text(md`## All ${count} said yes`),
    text(partInWords(part)),
    text(where ?? md`${meets} Write to each other and find a day.`),
    ...(ring.arcs.length > 2
      ? [text(joined([md`Who gives what to whom:`, arcsInWords(fromOwn(ring.arcs, memberId))]), 2)]
      : []),
    ...care.map((words, at) => text(words, at === 0 ? 0 : 3)),
    text(
      joined([
        md`Once a piece has changed hands, say so under **/frag promises**: **I handed it over** for yours, **I have it** for the one you get.`,
        greeting(memberId),
      ]),
    ),
  ]);
}

/** Why a ring did not come about, as all in it are told. Nobody is named. */
export type OffWhy = 'a-no' | 'no-answer' | 'a-piece' | 'meet-off';
const WHY: Record<OffWhy, Markdown> = {
  'a-no': md`One of you would rather not, so this one is off.`,
  'no-answer': md`Not everybody answered in time, so this one is off.`,
  'a-piece': md`One of the pieces is no longer to be had, so this one is off.`,
  'meet-off': md`The meet was called off, and this swap with it.`,
};

export function offView(ring: SwapRing, memberId: string, why: OffWhy): MessageView {
  const part = partOf(ring, memberId);
  return privately('plain', [
    text(md`## No swap this time`),
    text(WHY[why]),
    ...(part
      ? [
          text(
            ring.answers[memberId]?.said === 'silent'
              ? md`**${part.gives.name}:** yours to give again. You did not answer, so I ask you nothing of the kind for a week. **/frag rings** shows at any time what there is.`
              : md`**${part.gives.name}:** yours to give again. I go on looking for what you want, and ask you when another ring can be closed.`,
          ),
        ]
      : []),
    text(greeting(memberId)),
  ]);
}

/** An agreed ring that lost a piece: the rest stands as it is. */
export function brokenView(ring: SwapRing, memberId: string): MessageView {
  const part = partOf(ring, memberId);
  return privately('watch', [
    text(md`## A piece of your ring fell through`),
    text(
      md`One of the ${inLetters(ring.arcs.length)} pieces was let go or ran out of time. The other promises stand as they are.`,
    ),
    ...(part ? [text(partInWords(part))] : []),
    text(
      joined([
        md`Talk to the others. **/frag promises** shows which of yours still stand, and lets you release one.`,
        greeting(memberId),
      ]),
    ),
  ]);
}

export const doneView = (ring: SwapRing, memberId: string): MessageView =>
  privately('calm', [
    text(md`## The ring is closed`),
    text(
      md`All ${inLetters(ring.arcs.length)} pieces have changed hands. Dip what is new to you and hold it apart before it joins the display: **/quarantine start** counts the days.`,
    ),
    text(greeting(memberId)),
  ]);
