import type { DrawnPicture } from '../discord/message-view.ts';
import { dateInWords, inListOrder, type HandOver, type MeetShown } from './meet.ts';
import { namedBy, type Names } from './member-names.ts';
import type { Picture } from './ring-picture.ts';

/** Who gives what to whom at a meet; null when nothing changes hands. */
export function meetPicture({ meet, promised, asked, possible }: MeetShown, names: Names): Picture | null {
  const rings = possible.flat();
  const all = [...promised, ...asked, ...rings];
  if (all.length === 0) return null;
  const called = namedBy(names, all.flatMap(({ from, to }) => [from, to])); // prettier-ignore
  const rows = (list: readonly HandOver[]) =>
    list.map(({ from, to, name }) => ({ from: called(from), to: called(to), piece: name }));
  const parts = [
    { heading: 'Promised, to hand over', rows: rows(inListOrder(promised)) },
    { heading: 'Asked for, not all have said yes yet', rows: rows(inListOrder(asked)) },
    { heading: 'Rings that could be closed on the spot', rows: rows(rings) },
  ];
  const title = `${dateInWords(meet.heldOn)}, ${meet.place}`;
  const draw = async (): Promise<DrawnPicture> => {
    const { drawnChart, handOverChart } = await import('../drawing/charts/charts.ts');
    return drawnChart(handOverChart({ title, parts }));
  };
  return { kind: 'picture', name: 'meet.png', draw };
}
