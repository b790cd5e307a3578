import { inUnits } from '../calculators/units-in-words.ts';
import { joined, md, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import { standingOf } from './figure-words.ts';
import { judge } from './judge.ts';
import { readingIn, valueIn } from './measured.ts';
import { privately, undoButton } from './privately.ts';
import type { ReadingStory } from './reading-story.ts';
import { judgementLine, moment, nextTestLine, salinityFirstLine } from './reading-words.ts';
import { shownInWords } from './shown-in-words.ts';
import type { Tank } from './tank.ts';
import { MOST_ENTRIES, riseOf, type Dose, type LogEntry, type Reading, type WaterChange } from './tank-log.ts';

export type NotedReading = {
  tank: Tank;
  reading: Reading;
  parameter: Parameter;
  story: ReadingStory | null;
  /** How the text was read, and what was taken for granted. */
  understood: Markdown;
  dropped: LogEntry | null;
  changeId: number;
  /** A reading that was there and has been put right. */
  corrected?: boolean;
};

/** A reading as it was noted, how it stands, what the readings show, and when to test again. */
export function notedReadingView(base: KnowledgeBase, noted: NotedReading): MessageView {
  const { tank, reading, parameter, story, understood, dropped, changeId, corrected = false } = noted;
  const judged = judge(parameter, reading.value);
  const { units } = tank;
  const isLast = story?.last.id === reading.id;
  const said = story ? shownInWords(parameter, story.shown, story.course, units) : '';
  const chart: ButtonView[] =
    story && story.course.readings.length > 1
      ? [{ label: 'Chart', act: 'tank-chart', args: [String(tank.id), parameter.id] }]
      : [];
  const what = md`${readingIn(parameter, reading.value, units)}`;
  return privately(
    md`${what}, ${tank.name}`,
    [
      md`${corrected ? 'Corrected' : 'Noted'} for ${moment(reading.at)}${reading.kit ? md`, measured with ${reading.kit}` : md``}. ${understood}`,
      judgementLine(base, parameter, judged, tank),
      salinityFirstLine(base, parameter, reading.value, tank),
      said === '' ? null : md`${said}`,
      isLast && story ? nextTestLine(parameter, story.next, tank) : null,
      droppedLine(dropped),
    ],
    {
      tone: judged.kind === 'urgent' ? 'urgent' : judged.kind === 'warn' ? 'watch' : 'calm',
      buttons: [...chart, undoButton(changeId)],
    },
  );
}

const droppedLine = (dropped: LogEntry | null): Markdown | null =>
  dropped
    ? md`This tank’s log held ${MOST_ENTRIES} entries, so the oldest, of ${moment(dropped.at, 'D')}, made room. **Undo** brings it back.`
    : null;

export type NotedDose = {
  tank: Tank;
  dose: Dose;
  understood: readonly Markdown[];
  dropped: LogEntry | null;
  changeId: number;
};

/** A dose as it was noted, what it raises, and whether that was fast. */
export function notedDoseView(
  base: KnowledgeBase,
  { tank, dose, understood, dropped, changeId }: NotedDose,
): MessageView {
  const rises = [...base.parameters.values()].flatMap((parameter) => {
    const rise = riseOf(dose, parameter.id, tank.netVolumeL);
    return rise > 0 ? [{ parameter, rise }] : [];
  });
  const times =
    dose.days === 1 ? md`on ${moment(dose.at)}` : md`on each of ${dose.days} days, the last on ${moment(dose.at)}`;
  return privately(
    md`${dose.what}, ${tank.name}`,
    [
      md`Noted as given ${times}.`,
      ...understood,
      rises.length > 0
        ? joined(
            rises.map(
              ({ parameter, rise }) =>
                md`- **${parameter.name}** rises by ${valueIn(parameter, rise, tank.units)}${dose.days === 1 ? '' : ' each time'} in ${inUnits(tank.netVolumeL, 'volume', tank.units)}`,
            ),
          )
        : md`It raises nothing that I follow.`,
      ...rises.map(({ parameter, rise }) => fastLine(base, parameter, rise, tank)),
      droppedLine(dropped),
    ],
    { tone: 'calm', buttons: [undoButton(changeId)] },
  );
}

function fastLine(base: KnowledgeBase, parameter: Parameter, rise: number, { units }: Tank): Markdown | null {
  const { riseADay } = parameter;
  if (!riseADay || rise <= riseADay.high) return null;
  return md`**That was fast.** More than ${valueIn(parameter, riseADay.high, units)} a day is held to be too much for ${parameter.name.toLowerCase()}. Watch the animals and test; do not correct it by another dose.\n-# ${standingOf(riseADay, base)}`;
}

/** A water change as it was noted, and for what it can be reckoned with. */
export function notedChangeView(
  base: KnowledgeBase,
  {
    tank,
    change,
    understood,
    dropped,
    changeId,
  }: {
    tank: Tank;
    change: WaterChange;
    understood: readonly Markdown[];
    dropped: LogEntry | null;
    changeId: number;
  },
): MessageView {
  const said = Object.entries(change.newWater).flatMap(([id, value]) => {
    const parameter = base.parameters.get(id);
    return parameter ? [md`${parameter.name.toLowerCase()} ${valueIn(parameter, value, tank.units)}`] : [];
  });
  return privately(
    md`${shareInWords(change.share)} of the water changed, ${tank.name}`,
    [
      md`Noted for ${moment(change.at)}: ${inUnits(change.share * tank.netVolumeL, 'volume', tank.units)} of ${inUnits(tank.netVolumeL, 'volume', tank.units)}.`,
      ...understood,
      said.length > 0
        ? md`The new water: ${joined(said, ', ')}. Readings before and after are compared with that; of anything else they are not.`
        : md`You did not say what the new water held, so readings before and after are not compared. **Undo** and give it, if you know it, such as **alkalinity: 8.5**.`,
      droppedLine(dropped),
    ],
    { tone: 'calm', buttons: [undoButton(changeId)] },
  );
}

export const shareInWords = (share: number): string => `${Number((share * 100).toPrecision(2))} %`;
