// The charts that answers draw, in one place, so that it can be loaded when the first chart is wanted.
import type { DrawnPicture } from '../../discord/message-view.ts';
import { altTextOf, type Plate } from '../page.ts';

export { consumptionChart } from './consumption-chart.ts';
export type { ConsumptionData, FittedLine } from './consumption-data.ts';
export { colourSwatch, type Swatch } from './colour-swatch.ts';
export { doseDaysChart } from './dose-days-chart.ts';
export type { DosedParameter, DoseDaysData } from './dose-days-data.ts';
export { handOverChart, type HandOverChart, type HandOverRow } from './hand-over-chart.ts';
export { lightRampChart, type LightRamp, type LightStep } from './light-ramp-chart.ts';
export { ringChart, type RingChart } from './ring-chart.ts';
export { planTimeline } from './timeline-chart.ts';
export type { TimelineData, TimelineLane, TimelineMarkKind, TimelineState } from './timeline-data.ts';

/** A chart as a message carries it, with the words that stand in for it. */
export function drawnChart(chart: Plate): DrawnPicture {
  return { svg: chart.svg, width: chart.width, alt: altTextOf(chart) };
}
