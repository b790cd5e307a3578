import { critterButtons, critterCommands } from './critters/critter.command.ts';
import { critterMention } from './critters/mention.ts';
import { outOfDateView } from './critters/names.view.ts';
import type { AnyCommand, MentionAnswer } from './discord/command.ts';
import type { Answers } from './discord/dispatch.ts';
import type { Paint } from './discord/painted.ts';
import { createFinder } from './knowledge/finder.ts';
import type { KnowledgeBase } from './knowledge/knowledge-base.ts';

/** Everything that the bot answers to. A new feature adds its lines here. */
export type Abilities = Answers & {
  all: readonly AnyCommand[];
  mention: MentionAnswer;
  /** Does the work that the first answer would otherwise wait for. */
  warmUp: () => void;
};

/** Ties the commands, buttons and the mention road to the knowledge base. */
export function createAbilities(base: KnowledgeBase, paint: Paint = cannotPaint): Abilities {
  const finder = createFinder(base);
  const all = [...critterCommands(base, finder)];
  const buttons = [...critterButtons(base)];
  return {
    all,
    commands: new Map(all.map((command) => [command.name, command])),
    buttons: new Map(buttons.map((button) => [button.act, button])),
    mention: critterMention(base, finder),
    outOfDate: outOfDateView,
    warmUp: finder.warmUp,
    paint,
  };
}

const cannotPaint: Paint = () => Promise.reject(new Error('there is no painter'));
