import { joined, md, mentionOf, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Quarantine } from './quarantine.ts';
import { labelInWords } from './start-words.ts';
import { text } from './state-words.ts';

/** What was, and what is now. */
export type Changed = { what: string; was: Markdown; now: Markdown };

export const helpersInWords = (helpers: readonly string[]): Markdown =>
  helpers.length === 0 ? md`nobody` : joined(helpers.map(mentionOf), ', ');

/** Everything that was saved, as it was and as it is. */
export const changedView = ({ animals }: Quarantine, changed: readonly Changed[]): MessageView => ({
  audience: 'member',
  tone: 'calm',
  blocks: [
    text(md`## ${animals}: changed`),
    text(joined(changed.map(({ what, was, now }) => md`- **${what}:** ${was} → **${now}**`))),
    text(md`-# The days that were counted stay counted.`),
  ],
});

/** What can be changed, and how it is set. */
export function settingsView(quarantine: Quarantine, plan: Plan): MessageView {
  const { animals, option, copperLabel, tank, zone, timeOfDay, visibility, helpers } = quarantine;
  const way = plan.options.find(({ id }) => id === option);
  const rows: [string, Markdown][] = [
    ['animals', md`${animals}`],
    ['tank', md`${tank ?? 'not named'}`],
    ['time', md`${timeOfDay}, every day`],
    ['zone', md`${zone}`],
    ['seen-by', md`${visibility}`],
    ['helper', helpersInWords(helpers)],
    ['plan', md`${plan.name}`],
    ...(way ? [['option', md`${way.name}`] satisfies [string, Markdown]] : []),
    ...(copperLabel ? [['label', md`${labelInWords(copperLabel)}`] satisfies [string, Markdown]] : []),
  ];
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## ${animals}: how it is set`),
      text(joined(rows.map(([name, now]) => md`- **${name}:** ${now}`))),
      text(
        md`Send **/quarantine change** with what is to be different. Another plan or option begins anew, and I ask first. **helper-gone:** takes a helper off.`,
      ),
    ],
  };
}
