import { joined, md, type Block, type Markdown } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { FirstAid } from '../knowledge/first-aid.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { firstAidFor, leavesWound } from './hazard-order.ts';
import { standingInWords } from './sources.view.ts';

const NOT_A_DOCTOR = md`-# First aid, not medical advice. Call your local emergency number or poison centre; a doctor decides.`;

const MAY_TURN_BAD = md`-# Any wound from a tank can turn bad hours to weeks later. Press First aid for the signs.`;

/** The rows for a critter as blocks. The first is never folded; later ones are, before anything is cut. */
export function firstAidBlocks(base: KnowledgeBase, critter: Critter): Block[] {
  const rows = firstAidFor(base, critter);
  if (rows.length === 0) return [];
  return [
    ...rows.map((row, at): Block => ({ kind: 'text', text: firstAidText(row), ...(at > 0 ? { fold: 4 + at } : {}) })),
    { kind: 'text', text: leavesWound(critter) ? joined([MAY_TURN_BAD, NOT_A_DOCTOR]) : NOT_A_DOCTOR },
  ];
}

/** One row, whole. */
export function firstAidText({ met, now, not, emergency, poisonCentre, doctor, source, standing }: FirstAid): Markdown {
  return joined([
    ...heading(met),
    md`Do now: ${now}`,
    md`Do not: ${not}`,
    ...(emergency ? [md`Emergency number: ${emergency}`] : []),
    ...(poisonCentre ? [md`Poison centre: ${poisonCentre}`] : []),
    ...(doctor ? [md`Doctor: ${doctor}`] : []),
    md`-# ${withoutStop(source)} (${standingInWords(standing)})`,
  ]);
}

/** The first sentence says what happened and heads the row; what follows are its signs. */
function heading(met: string): Markdown[] {
  const [, happened = met, signs = ''] = /^(.*?[.])\s+(.*)$/.exec(met) ?? [];
  return [md`**First aid: ${lowerFirst(withoutStop(happened))}**`, ...(signs ? [md`${signs}`] : [])];
}

const withoutStop = (text: string) => text.replace(/\.$/, '');
const lowerFirst = (text: string) => (/^[A-Z][a-z ]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);
