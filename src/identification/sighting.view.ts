import { ADVICE, TONE, adviceOf } from '../critters/advice.ts';
import { firstAidText } from '../critters/first-aid.view.ts';
import { hazardsInOrder } from '../critters/hazard-order.ts';
import { noteView } from '../critters/names.view.ts';
import { joined, md, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { TraitVocabulary } from '../knowledge/trait-vocabulary.ts';
import type { Candidate, Decision } from './decide.ts';
import { doesNotFit, fits } from './explain.ts';
import type { Identified } from './identify.ts';
import { chanceInWords, reasonsInWords } from './in-words.ts';
import type { ReadDescription } from './read-description.ts';
import type { Sighting } from './session.ts';
import { buttonsOf, candidatesShown, isInAClub } from './sighting-buttons.view.ts';

export type SightingOccasion = {
  audience: MessageView['audience'];
  replaces?: true;
  /** What the reader made of the words, for the first answer to a description. */
  read?: ReadDescription;
  /** Whether there is a question whose answer could change the advice. */
  canAsk?: boolean;
};

/** A dangerous animal at least this probable brings its cautions along. */
const DANGER_WORTH_SAYING = 0.04;
const MOST_REASONS = 5;

const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

const ISOLATE = md`**What to do tonight.** Nothing by hand. If the rock or coral comes out easily, lift it with tongs into a lidded tub of tank water; else watch it from outside. Take photos through the glass in white light, from the side, with something beside it for size.`;

const ASK_HERE = md`Then press **Ask the club**: your words and answers go along, with a photo if you have one.`;
const ASK_THERE = md`Then ask in your club’s channel.`;

/** The buttons of a sighting belong to whoever asked. */
export const notYoursView = (): MessageView =>
  noteView(
    'These buttons are not yours',
    md`They belong to whoever asked. Start your own with **/critter describe** or **/critter key**.`,
  );

/** What the bot makes of a sighting: the act first, why, and the one look that would settle it. */
export function sightingView(
  base: KnowledgeBase,
  vocabulary: TraitVocabulary,
  sighting: Sighting,
  identified: Identified,
  occasion: SightingOccasion,
): MessageView {
  const { decision } = identified;
  return {
    audience: occasion.audience,
    ...(occasion.replaces ? { replaces: true } : {}),
    tone: identified.evidence.hurt.length > 0 ? 'urgent' : toneOf(decision),
    blocks: [
      text(headline(decision)),
      ...peopleBlocks(base, identified),
      ...afterFirstAid(identified, [
        ...(occasion.read ? [text(readText(base, occasion.read), 1)] : []),
        ...candidateBlocks(vocabulary, identified),
        ...notRuledOutBlocks(decision),
        ...actBlocks(sighting, decision, occasion.canAsk ?? true),
        ...settleBlocks(decision),
      ]),
      text(md`-# I go by words alone, and they can mislead. A photo shown to people beats me. Sighting ${sighting.id}`),
      {
        kind: 'buttons',
        buttons: buttonsOf(sighting, identified, hazardous(base, identified)[0], occasion.canAsk ?? true),
      },
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}

/** Beside somebody who is hurt the name of the animal can wait: it is left out before any first aid is. */
const afterFirstAid = ({ evidence }: Identified, blocks: Block[]): Block[] =>
  evidence.hurt.length === 0
    ? blocks
    : blocks.map((block) => (block.kind === 'text' ? { ...block, fold: 5 + (block.fold ?? 0) } : block));

function headline({ kind, act, candidates }: Decision): Markdown {
  const [top] = candidates;
  return kind === 'likely' && top && act !== 'ask'
    ? md`## ${top.critter.name}, likely — ${ADVICE[act]}`
    : md`## Can’t tell — isolate, photograph and ask`;
}

function toneOf({ kind, act, candidates }: Decision): MessageView['tone'] {
  if (kind === 'likely' && act !== 'ask') return TONE[act];
  return candidates.some(({ critter }) => isGrave(critter)) ? 'urgent' : 'watch';
}

/** Every animal still possible, or named by the member, that can hurt somebody: the gravest first. */
function hazardous(base: KnowledgeBase, { decision, evidence }: Identified): Critter[] {
  const named = evidence.named.flatMap((id) => base.critters.get(id) ?? []);
  const possible = decision.candidates
    .filter(({ probability }) => probability >= DANGER_WORTH_SAYING)
    .map(({ critter }) => critter);
  return [...new Set([...named, ...possible, ...decision.notRuledOut])]
    .filter(({ humanHazards }) => humanHazards.length > 0)
    .sort((one, other) => Number(isGrave(other)) - Number(isGrave(one)));
}

/** From this probability on an animal's first aid is put forward to somebody who is hurt. */
const LIKELY_CULPRIT = 0.3;
/** The row that fits whatever it was; nobody who is hurt goes without it. */
const WHATEVER_IT_WAS = 'hurt-at-tank';

/** People stand above everything: help for somebody who is hurt, then the caution of the worst animal still possible. */
function peopleBlocks(base: KnowledgeBase, identified: Identified): Block[] {
  const [worst, ...others] = hazardous(base, identified);
  const { hurt } = identified.evidence;
  return [
    ...(hurt.length > 0 ? firstAidForHurt(base, identified) : []),
    ...(worst
      ? [text(md`**For people.** It may be ${worst.name}: ${worst.caution ?? ''}`, hurt.length > 0 ? 3 : 0)]
      : []),
    ...(others.length > 0 ? [text(md`Mind also: ${others.map(({ name }) => name).join(', ')}.`, 2)] : []),
    ...(worst && hurt.length === 0 ? [text(md`-# Somebody stung, hurt or ill? Press First aid now.`)] : []),
  ];
}

/**
 * First aid for somebody who is hurt: what fits whatever it was, then the rows that their signs call for, then those of
 * an animal that is named or likely. A doubtful name never chooses the first aid.
 */
function firstAidForHurt(base: KnowledgeBase, { decision, evidence }: Identified): Block[] {
  const named = evidence.named.flatMap((id) => base.critters.get(id) ?? []);
  const likely = decision.candidates
    .filter(({ probability }) => probability >= LIKELY_CULPRIT)
    .map(({ critter }) => critter);
  const rows = [WHATEVER_IT_WAS, ...evidence.hurt, ...[...named, ...likely].flatMap(hazardsInOrder)];
  return [...new Set(rows)]
    .flatMap((id) => base.firstAid.get(id) ?? [])
    .map((row, at) => text(firstAidText(row), at < 2 ? 0 : 3));
}

function readText(
  base: KnowledgeBase,
  { understood, unused, notUnderstood, warnings, evidence }: ReadDescription,
): Markdown {
  const hints = evidence.named.flatMap((id) => base.critters.get(id)?.name ?? []);
  const phrases = understood.filter(({ observation }) => observation.kind !== 'word').map(({ words: said }) => said);
  const single = understood.filter(
    ({ words: said, observation }) => observation.kind === 'word' && !phrases.some((phrase) => phrase.includes(said)),
  );
  const words = [...phrases, ...single.map(({ words: said }) => said)];
  const lines = [
    ...(warnings.length > 0 ? [md`Taken as a warning: ${warnings.join(', ')}.`] : []),
    words.length > 0
      ? md`I went by: ${[...new Set(words)].join(', ')}.`
      : md`I found no word in that which I could use.`,
    ...(hints.length > 0 ? [md`Taken as a hint: ${hints.join(', ')}.`] : []),
    ...(unused.length > 0 ? [md`Understood, but no entry records it: ${unused.join(', ')}.`] : []),
    ...(notUnderstood.length > 0 ? [md`Not understood: ${notUnderstood.slice(0, 15).join(', ')}.`] : []),
  ];
  return joined(lines);
}

function candidateBlocks(vocabulary: TraitVocabulary, { decision, explanations }: Identified): Block[] {
  const lines = candidatesShown(decision).map((candidate) => text(candidateText(vocabulary, candidate, explanations)));
  const unknown =
    decision.nothing >= 0.05 ? [text(md`Something I have no entry for: ${chanceInWords(decision.nothing)}.`, 1)] : [];
  return lines.length > 0 || unknown.length > 0
    ? [...lines, ...unknown]
    : [text(md`Nothing I know fits well enough to be named.`)];
}

function candidateText(
  vocabulary: TraitVocabulary,
  { critter, probability }: Candidate,
  explanations: Identified['explanations'],
): Markdown {
  const explanation = explanations.get(critter.id);
  const good = explanation ? reasonsInWords(fits(explanation), vocabulary, MOST_REASONS) : '';
  const bad = explanation ? reasonsInWords(doesNotFit(explanation), vocabulary, MOST_REASONS) : '';
  return joined([
    md`**${critter.name}**, ${chanceInWords(probability)} (${adviceOf(critter)})`,
    ...(good ? [md`Fits: ${good}.`] : []),
    ...(bad ? [md`Does not fit: ${bad}.`] : []),
    md`-# entry ${critter.id}`,
  ]);
}

/** Why "leave it" is not said of an animal that may stay. */
function notRuledOutBlocks({ notRuledOut, oneSlipAway, candidates, act }: Decision): Block[] {
  const [top] = candidates;
  if (!top || act !== 'watch' || top.critter.verdict !== 'keep') return [];
  const names = (critters: readonly Critter[]) => critters.map(({ name }) => name).join(', ');
  if (notRuledOut.length > 0)
    return [
      text(
        md`${top.critter.name} itself may stay, but ${names(notRuledOut)} ${notRuledOut.length === 1 ? 'is' : 'are'} not ruled out yet, so I do not say “leave it”.`,
      ),
    ];
  if (oneSlipAway.length > 0)
    return [
      text(
        md`${top.critter.name} itself may stay, but a single mistaken detail could hide ${names(oneSlipAway)}, so I do not say “leave it” yet.`,
      ),
    ];
  return [
    text(
      candidates.every(({ critter }) => critter.verdict === 'keep')
        ? md`All that I name here may stay, but I am not sure enough which it is to say “leave it”.`
        : md`${top.critter.name} itself may stay, but I am not sure enough that it is one to say “leave it”.`,
    ),
  ];
}

function actBlocks(sighting: Sighting, { kind, act, candidates, settle }: Decision, canAsk: boolean): Block[] {
  const [top] = candidates;
  if (kind === 'cannot-tell' || !top) return [text(md`${ISOLATE} ${isInAClub(sighting) ? ASK_HERE : ASK_THERE}`)];
  if (act === top.critter.verdict)
    return [
      text(md`**What to do.** ${top.critter.now}`),
      ...(top.critter.depends ? [text(md`**It depends.** ${top.critter.depends}`, 2)] : []),
    ];
  return [
    text(
      md`**What to do.** Keep hands off and watch it from outside. ${settle ? LOOK_FIRST : canAsk ? ANSWER_FIRST : ASK_FIRST} If it is ${top.critter.name}: ${top.critter.now}`,
    ),
  ];
}

const LOOK_FIRST = md`Make the look below first.`;
const ANSWER_FIRST = md`Press **Ask me questions** to make me surer.`;
const ASK_FIRST = md`Show a photo to people before you do more.`;

function settleBlocks({ settle }: Decision): Block[] {
  if (!settle) return [];
  const feature = settle.pair.features[settle.feature];
  if (!feature) return [];
  const [suspected, expected] = settle.pair.a === settle.suspect.id ? [feature.a, feature.b] : [feature.b, feature.a];
  return [
    { kind: 'rule' },
    text(
      joined([
        md`**One look would help: ${feature.feature.toLowerCase()}.**`,
        md`${settle.suspect.name}: ${suspected}. ${settle.against.name}: ${expected}.`,
        md`${feature.check}`,
        md`Is it as on **${settle.suspect.name}**?`,
      ]),
    ),
  ];
}
