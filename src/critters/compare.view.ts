import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import { pairOf, type KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { LookAlike } from '../knowledge/look-alike.ts';
import { TONE, adviceOf } from './advice.ts';
import { pairPicture } from './pair-picture.ts';
import { standingInWords } from './sources.view.ts';

const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

const HARM = { keep: 0, watch: 1, remove: 2, urgent: 3 } as const;

/** Two critters side by side, feature by feature, and what each mistake costs. */
export function compareView(
  base: KnowledgeBase,
  one: Critter,
  other: Critter,
  occasion: { audience: MessageView['audience']; shownBy?: string },
): MessageView {
  const pair = pairOf(base, one.id, other.id);
  const worse = HARM[one.verdict] >= HARM[other.verdict] ? one : other;
  return {
    audience: occasion.audience,
    tone: TONE[worse.verdict],
    blocks: [
      text(md`## ${one.name} or ${other.name}?`),
      ...(occasion.shownBy ? [text(md`-# Shown to everyone by ${occasion.shownBy}`)] : []),
      text(md`${one.name}: **${adviceOf(one)}**. ${other.name}: **${adviceOf(other)}**.`),
      ...(pair ? pairBlocks(base, pair, one, other) : unpairedBlocks(one, other)),
      { kind: 'buttons', buttons: buttonsOf(one, other, occasion.audience) },
    ],
  };
}

function pairBlocks(base: KnowledgeBase, pair: LookAlike, one: Critter, other: Critter): Block[] {
  const isA = pair.a === one.id;
  const danger = pair.danger ? base.critters.get(pair.danger) : undefined;
  const features = pair.features.map(({ feature, a, b, check, clears }, at) =>
    text(
      joined([
        md`**${at + 1}. ${feature}**`,
        md`${one.name}: ${isA ? a : b}`,
        md`${other.name}: ${isA ? b : a}`,
        md`How to look: ${check}`,
        ...(danger && clears ? [md`Only a clear look at this rules out ${danger.name}.`] : []),
      ]),
    ),
  );
  return [
    ...(danger ? [text(dangerText(pair, danger))] : []),
    pairPicture(pair, isA ? one : other, isA ? other : one),
    ...features,
    text(joined([md`**What a mistake costs**`, costText(pair, one, other), costText(pair, other, one)])),
    text(sourcesText(base, pair), 1),
    text(md`-# entry ${pair.id}`),
  ];
}

/** Where one can hurt a person, a sign may convict it; only a feature marked as clearing acquits it. */
function dangerText(pair: LookAlike, danger: Critter): Markdown {
  const canClear = pair.features.some(({ clears }) => clears);
  const until = md`**${danger.name} can hurt you.** Until it is ruled out, act as if it were that one: hands out, look from outside.`;
  return canClear
    ? md`${until} Missing signs clear nothing.`
    : md`${until} Nothing you can see from outside clears it for certain: show a photo to somebody who knows it.`;
}

function costText(pair: LookAlike, really: Critter, calledAs: Critter): Markdown {
  const { cost, because } = really.id === pair.a ? pair.aTakenForB : pair.bTakenForA;
  return md`If it really is **${really.name}** and you take it for ${calledAs.name}: ${cost} cost. ${because.charAt(0).toUpperCase()}${because.slice(1).replace(/\.$/, '')}.`;
}

function sourcesText(base: KnowledgeBase, pair: LookAlike): Markdown {
  const cited = pair.sources.flatMap((id) => base.sources.get(id) ?? []);
  return md`-# Sources: ${cited.map(({ short, standing }) => (standing === 'common-practice' ? standingInWords(standing) : `${short}, ${standingInWords(standing)}`)).join('; ')}`;
}

function unpairedBlocks(one: Critter, other: Critter): Block[] {
  return [
    text(md`Nobody has written these two up as look-alikes, so here is how to know each.`),
    ...[one, other].map((critter) => text(joined([md`**${critter.name}**`, md`${critter.know}`]))),
    text(md`-# entries ${one.id}, ${other.id}`),
  ];
}

function buttonsOf(one: Critter, other: Critter, audience: MessageView['audience']): ButtonView[] {
  return [
    { label: `Card: ${one.name}`, act: 'card', args: [one.id] },
    { label: `Card: ${other.name}`, act: 'card', args: [other.id] },
    ...(audience === 'member'
      ? [{ label: 'Show everyone', act: 'show-pair', args: [one.id, other.id], style: 'primary' } satisfies ButtonView]
      : []),
  ];
}
