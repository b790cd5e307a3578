import { md, type Answer } from '../discord/message-view.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { TankDeps } from './asked-tank.command.ts';
import { privately } from './privately.ts';
import { shownInWords } from './shown-in-words.ts';
import { storyOfParameter } from './stories.command.ts';
import { nextTestLine } from './reading-words.ts';
import { storyPicture } from './tank-chart.ts';
import type { Tank } from './tank.ts';
import { toHoldInWords } from './to-hold.ts';

/** The chart of a parameter with what it shows in words. The picture is drawn when the answer is sent. */
export function chartAnswer(deps: TankDeps, tank: Tank, parameter: Parameter): Answer {
  const story = storyOfParameter(deps, tank, parameter.id);
  if (!story)
    return privately(md`No reading of ${parameter.name.toLowerCase()} yet`, [
      md`**/tank reading** notes one for **${tank.name}**.`,
    ]);
  const said = shownInWords(parameter, story.shown, story.course, tank.units);
  const hold = toHoldInWords(deps.base, tank, parameter, story.shown);
  return privately(
    md`${parameter.name}, ${tank.name}`,
    [
      said === '' ? null : md`${said}`,
      hold === '' ? null : md`${hold}`,
      nextTestLine(parameter, story.next, tank),
      md`-# The last six weeks up to the newest reading, at most 24 readings. Median of the slopes of all pairs (Theil 1950; Sen 1968).`,
    ],
    { blocks: [storyPicture(story, tank)] },
  );
}
