import type { Block, DrawnPicture } from '../discord/message-view.ts';
import type { Sign } from '../knowledge/sign.ts';
import { timelineOf, type Drawn } from './timeline.ts';

/** The whole plan over time; everything on it stands in the words too. Null before it starts, when there is nothing to draw. */
export function planPicture(
  signs: ReadonlyMap<string, Sign>,
  drawn: Drawn,
  now: Date,
): Extract<Block, { kind: 'picture' }> | null {
  const data = timelineOf(signs, drawn, now);
  if (!data) return null;
  const draw = async (): Promise<DrawnPicture> => {
    const { drawnChart, planTimeline } = await import('../drawing/charts/charts.ts');
    return drawnChart(planTimeline(data));
  };
  return { kind: 'picture', name: 'plan.png', draw };
}
