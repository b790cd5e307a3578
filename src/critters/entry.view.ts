import { joined, md, type Block, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { FirstAid } from '../knowledge/first-aid.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { ADVICE, TONE } from './advice.ts';
import { firstAidFor, leavesWound } from './hazard-order.ts';
import { firstAidText } from './first-aid.view.ts';
import { ruleOutText } from './card.view.ts';
import { doublesOf } from './rule-out.ts';
import { sourcesInFull } from './sources.view.ts';

const text = (markdown: ReturnType<typeof md>, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

/** The rest of an entry: how to know it, when to worry, every look-alike, every source in full. */
export function entryView(base: KnowledgeBase, critter: Critter): MessageView {
  return {
    audience: 'member',
    tone: TONE[critter.verdict],
    blocks: [
      text(md`## ${critter.name}, the whole entry`),
      text(md`*${critter.scientificName}*. The entry speaks of a ${critter.rank}, no finer.${sizeOf(critter)}`),
      text(md`**How to know it.** ${critter.know}`),
      text(md`**When to worry.** ${critter.worry}`),
      ...(critter.aliases.length > 0 ? [text(md`**Also called** ${critter.aliases.join(', ')}.`, 1)] : []),
      ...doublesOf(base, critter).map((double, at) => text(ruleOutText(double), at < 3 ? 1 : 3)),
      text(md`**Sources**\n${sourcesInFull(base, critter)}`, 2),
      text(md`-# entry ${critter.id}`),
    ],
    foldedNotice: md`-# Shortened to fit one message.`,
  };
}

function sizeOf({ traits: { sizeMm } }: Critter) {
  return sizeMm ? md` Met at ${sizeMm[0]} to ${sizeMm[1]} mm.` : md``;
}

/** All first-aid rows of a critter, whole, and nothing else. */
export function firstAidView(base: KnowledgeBase, critter: Critter): MessageView {
  const rows = firstAidFor(base, critter);
  const wound = leavesWound(critter) ? base.firstAid.get('wound-infection') : undefined;
  return {
    audience: 'member',
    tone: 'urgent',
    blocks: [
      text(md`## First aid: ${critter.name}`),
      ...(critter.caution ? [text(md`${critter.caution}`, 1)] : []),
      ...rows.map((row, at) => text(firstAidText(row), at === 0 ? 0 : 2)),
      ...(wound ? [text(firstAidText(wound), 3)] : []),
      text(
        joined([
          md`-# First aid, not medical advice. Call your local emergency number or poison centre; a doctor decides.`,
          md`-# entry ${critter.id} — ${ADVICE[critter.verdict]}`,
        ]),
      ),
    ],
  };
}

/** One first-aid row by itself. */
export function aidView(row: FirstAid): MessageView {
  return {
    audience: 'member',
    tone: 'urgent',
    blocks: [
      text(md`## First aid`),
      text(firstAidText(row)),
      text(md`-# First aid, not medical advice. Call your local emergency number or poison centre; a doctor decides.`),
    ],
  };
}
