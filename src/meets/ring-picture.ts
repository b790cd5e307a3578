import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { RingArc } from './ring.ts';
import { fromOwn } from './ring-words.ts';
import { namedBy, type Names } from './member-names.ts';

export type Picture = Extract<Block, { kind: 'picture' }>;

/** A ring as a picture; everything on it stands in the words too. */
export function ringPicture(given: readonly RingArc[], memberId: string, names: Names, name: string): Picture {
  const arcs = fromOwn(given, memberId);
  const called = namedBy(names, arcs.map(({ from }) => from)); // prettier-ignore
  const members = arcs.map((arc) => ({ name: called(arc.from), gives: arc.name }));
  const title = arcs.length === 2 ? 'A swap between two' : `A ring of ${arcs.length === 3 ? 'three' : 'four'}`;
  const draw = async (): Promise<DrawnPicture> => {
    const { drawnChart, ringChart } = await import('../drawing/charts/charts.ts');
    return drawnChart(ringChart({ title, members }));
  };
  return { kind: 'picture', name, draw };
}
