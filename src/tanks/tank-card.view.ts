import { inUnits } from '../calculators/units-in-words.ts';
import {
  joined,
  md,
  mentionOf,
  type Block,
  type ButtonView,
  type Markdown,
  type MessageView,
} from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { judge } from './judge.ts';
import { readingIn } from './measured.ts';
import type { ReadingStory } from './reading-story.ts';
import { moment, nextTestLine, salinityFirstLine } from './reading-words.ts';
import { privately, undoButton } from './privately.ts';
import { shownInWords } from './shown-in-words.ts';
import { toHoldInWords } from './to-hold.ts';
import { MOST_TANKS, type Tank } from './tank.ts';

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Volume, salinity, temperature, purpose and who sees it. */
export function valuesOf(tank: Tank): Markdown {
  const { units } = tank;
  const unknown = 'not measured';
  return joined([
    md`**Net water** ${inUnits(tank.netVolumeL, 'volume', units)}, taken as right within ${percent(tank.volumeError)}`,
    md`**Salinity** ${tank.practicalSalinity === null ? unknown : inUnits(tank.practicalSalinity, 'salinity', units)} · **Temperature** ${tank.temperatureC === null ? unknown : inUnits(tank.temperatureC, 'temperature', units)}`,
    md`**Kept as** ${tank.purpose} · **Units** ${[units.volume, units.temperature, units.alkalinity, units.salinity].join(', ')} · **Seen by** ${tank.visibility === 'me' ? 'you alone' : 'the club'}`,
  ]);
}

/** A tank with all that is known of it. `owner`: it is somebody else’s. */
export function tankView(
  base: KnowledgeBase,
  tank: Tank,
  stories: readonly ReadingStory[],
  owner: { id: string } | null,
): MessageView {
  const judged = stories.map(({ parameter, last }) => judge(parameter, last.value).kind);
  const tone = judged.includes('urgent') ? 'urgent' : judged.includes('warn') ? 'watch' : 'plain';
  const charts = stories
    .filter(({ course }) => course.readings.length > 1)
    .slice(0, 5)
    .map(({ parameter }): ButtonView => ({
      label: `Chart: ${parameter.name}`,
      act: 'tank-chart',
      args: [String(tank.id), parameter.id],
    }));
  return privately(
    owner ? md`${tank.name}, ${mentionOf(owner.id)}’s tank` : md`${tank.name}`,
    [
      valuesOf(tank),
      stories.length === 0
        ? md`No reading yet. **/tank reading** notes the first, such as **parameter: alkalinity**, **value: 8.2**.`
        : null,
    ],
    { tone, buttons: charts, blocks: stories.map((story): Block => storyBlock(base, tank, story)) },
  );
}

/** Where a message would be too long, what is in order is left out first and what is urgent never. */
function storyBlock(base: KnowledgeBase, tank: Tank, story: ReadingStory): Block {
  const { kind } = judge(story.parameter, story.last.value);
  const fold = kind === 'urgent' ? 0 : kind === 'warn' ? 1 : 2;
  return { kind: 'text', text: storyLines(base, tank, story), fold };
}

function storyLines(base: KnowledgeBase, tank: Tank, { parameter, last, course, shown, next }: ReadingStory): Markdown {
  const judged = judge(parameter, last.value);
  const word = judged.kind === 'urgent' ? ' **urgent**' : judged.kind === 'warn' ? ' **outside the limits**' : '';
  const said = shownInWords(parameter, shown, course, tank.units);
  const hold = toHoldInWords(base, tank, parameter, shown);
  const first = salinityFirstLine(base, parameter, last.value, tank);
  return joined([
    md`**${readingIn(parameter, last.value, tank.units)}**, ${moment(last.at, 'R')}.${{ markdown: word }}`,
    ...(said === '' ? [] : [md`${said}`]),
    ...(hold === '' ? [] : [md`${hold}`]),
    ...(first && tank.practicalSalinity !== null ? [first] : []),
    md`-# ${nextTestLine(parameter, next, tank)}`,
  ]);
}

/** Tanks one below the other. `owner`: they are somebody else’s. */
export function tanksView(tanks: readonly Tank[], owner: { id: string } | null): MessageView {
  return privately(owner ? md`What ${mentionOf(owner.id)} shows` : md`Your tanks`, [
    joined(
      tanks.map(
        ({ name, netVolumeL, units, purpose, visibility }) =>
          md`- **${name}**, ${inUnits(netVolumeL, 'volume', units)}, ${purpose}${owner ? '' : `, seen by ${visibility === 'me' ? 'you alone' : 'the club'}`}`,
      ),
    ),
    owner
      ? md`**/tank show** with **for:** shows one.`
      : md`**/tank show** shows one with its readings. You can keep ${MOST_TANKS}.`,
  ]);
}

/** A tank that was just added; `how`: how its volume was come by. */
export const addedView = (tank: Tank, how: readonly Markdown[], changeId: number): MessageView =>
  privately(
    md`${tank.name} is kept`,
    [
      valuesOf(tank),
      ...how,
      md`Note readings with **/tank reading**, and what you put in with **/tank dosed** and **/tank water-change**: then I can tell what it uses up.`,
    ],
    { tone: 'calm', buttons: [undoButton(changeId)] },
  );

export const editedView = (tank: Tank, how: readonly Markdown[], changeId: number): MessageView =>
  privately(md`${tank.name} is changed`, [valuesOf(tank), ...how], { tone: 'calm', buttons: [undoButton(changeId)] });

export const nothingToEditView = (tank: Tank): MessageView =>
  privately(md`What shall be different?`, [
    md`Give at least one thing to change, such as **volume:** or **seen-by:**. **${tank.name}** is as it was:`,
    valuesOf(tank),
  ]);

/** Asks once more before a tank goes. */
export const removeView = (tank: Tank, entries: number): MessageView =>
  privately(
    md`Remove ${tank.name}?`,
    [
      entries === 0
        ? md`Nothing has been noted for it yet.`
        : md`It goes with its ${entries === 1 ? 'one entry' : `${entries} entries`}: readings, doses and water changes.`,
      md`You can bring it back for 30 days with **/tank undo**, as long as it is the last thing you changed.`,
    ],
    {
      tone: 'watch',
      buttons: [{ label: `Remove ${tank.name}`, act: 'tank-remove', args: [String(tank.id)], style: 'danger' }],
    },
  );

export const removedView = (tank: Tank, changeId: number): MessageView =>
  privately(md`${tank.name} is removed`, [md`**Undo** brings it back with everything that was noted.`], {
    buttons: [undoButton(changeId)],
    replaces: true,
  });
