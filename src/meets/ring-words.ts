import { joined, md, mentionOf, type Markdown } from '../discord/message-view.ts';
import { saidYes, type RingArc, type SwapRing } from './ring.ts';

const NUMBERS = ['no', 'one', 'two', 'three', 'four'];
/** "four". */
export const inLetters = (count: number): string => NUMBERS[count] ?? String(count);

/** "- Nell gives Bo: torch", one line a piece. */
export const arcsInWords = (arcs: readonly Pick<RingArc, 'from' | 'to' | 'name'>[]): Markdown =>
  joined(arcs.map(({ from, to, name }) => md`- ${mentionOf(from)} gives ${mentionOf(to)}: ${name}`));

/** The same ring, told from what one member gives; theirs comes first. */
export function fromOwn<Arc extends Pick<RingArc, 'from'>>(arcs: readonly Arc[], memberId: string): Arc[] {
  const at = arcs.findIndex(({ from }) => from === memberId);
  return at < 0 ? [...arcs] : [...arcs.slice(at), ...arcs.slice(0, at)];
}

/** What one member gives and gets. */
export const partInWords = ({ gives, gets }: { gives: RingArc; gets: RingArc }): Markdown =>
  joined([
    md`**You give:** ${gives.name}, 1 piece, to ${mentionOf(gives.to)}`,
    md`**You get:** ${gets.name}, 1 piece, from ${mentionOf(gets.from)}`,
  ]);

/** "2 of 4 have said yes". */
export function yesesInWords(ring: Pick<SwapRing, 'arcs' | 'answers'>): string {
  const yes = saidYes(ring).length;
  return `${yes} of ${ring.arcs.length} ${yes === 1 ? 'has' : 'have'} said yes`;
}

/** "1 ring", "3 rings". */
export const rings = (count: number): string => `${count} ${count === 1 ? 'ring' : 'rings'}`;

/** A moment as every reader’s own clock shows it. */
export const momentOf = (at: Date, style: 'f' | 'R' | 'D' = 'f'): Markdown => ({
  markdown: `<t:${Math.floor(at.getTime() / 1000)}:${style}>`,
});
