import { adviceOf } from '../critters/advice.ts';
import { firstAidBlocks, firstAidText } from '../critters/first-aid.view.ts';
import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import { chanceInWords } from '../identification/in-words.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { isGrave } from '../knowledge/look-up.ts';
import type { Answered } from './answers-in-words.ts';
import { dangerousOf, type BotOpinion } from './bot-opinion.ts';
import type { Call, WeighedBallot } from './call.ts';
import { callText, closedText, entryText, openTime, tallyText } from './case-words.ts';
import type { Case, Closed } from './opinion.ts';

/** A case with everything that its messages are made of. */
export type CaseShown = {
  base: KnowledgeBase;
  opinion: Case;
  bot: BotOpinion;
  ballots: readonly WeighedBallot[];
  call: Call;
  /** What the asker answered before, for people to read. */
  answered: readonly Answered[];
};

const text = (markdown: Markdown, fold = 0): Block => ({ kind: 'text', text: markdown, fold });

export const SAFE_HANDLING = md`**Until somebody has settled it:** nothing by hand, nothing scraped, cut or boiled. If the rock or coral comes out easily, lift it with tongs into a lidded tub of tank water; else watch it from outside.`;

/** The photo in the channel: what may hurt people first, then the photo, the asker's words and how the case stands. */
export function openingView(shown: CaseShown): MessageView {
  const { base, opinion } = shown;
  const { closed, closesAt, askerName, credit } = opinion;
  const closesS = Math.floor(closesAt.getTime() / 1000);
  const status = closed
    ? closedText(base, closed)
    : md`Open until <t:${closesS}:f> (<t:${closesS}:R>), or until a curator settles it. ${opinion.wantsThread ? 'Vote in the thread.' : 'Vote below.'}`;
  return {
    audience: 'everyone',
    tone: toneOf(shown),
    blocks: [
      text(closed ? md`## Second opinion, closed` : md`## What is this? A second opinion, please`),
      ...peopleBlocks(shown),
      ...helpBlocks(shown),
      ...(opinion.photoName ? [{ kind: 'photo', name: opinion.photoName, alt: opinion.photoAlt } satisfies Block] : []),
      ...(opinion.text ? [text(md`${askerName} writes: “${opinion.text}”`)] : []),
      ...answeredBlocks(shown),
      text(closed ? joined([status, tallyText(shown.ballots)]) : status),
      text(
        md`-# Asked by ${askerName}${credit ? md`, about a photo of ${credit}` : md``}${opinion.photoName ? md`` : md`, without a photo`} · case ${opinion.id}`,
      ),
      ...firstAidButtons(shown),
    ],
    foldedNotice: md`-# Shortened to fit. Press First aid for the rest.`,
  };
}

/** What the asker told the bot beside their words, so that nobody asks it again. */
function answeredBlocks({ answered, opinion }: CaseShown): Block[] {
  if (answered.length === 0) return [];
  const lines = answered.map(({ asked, said }) => md`- ${asked}${/[?.:]$/.test(asked) ? '' : ':'} **${said}**`);
  return [text(joined([md`${opinion.askerName} also told me:`, ...lines]), 1)];
}

/** What the bot thinks so far, the count, and the buttons to vote with. */
export function ballotView(shown: CaseShown): MessageView {
  const { base, opinion, ballots, call } = shown;
  return {
    audience: 'everyone',
    tone: toneOf(shown),
    blocks: [
      text(opinion.closed ? md`## Voting is closed` : md`## Pest or harmless?`),
      ...peopleBlocks(shown),
      ...thoughtBlocks(shown),
      ...(opinion.closed ? [] : [text(SAFE_HANDLING), ...photoWantedBlocks(opinion)]),
      { kind: 'rule' },
      text(joined([tallyText(ballots), ...namedLines(base, ballots), callText(call)])),
      ...(opinion.closed ? [text(closedText(base, opinion.closed))] : []),
      text(
        opinion.closed
          ? md`-# Case ${opinion.id}`
          : md`-# Open for ${openTime(opinion.openForMs)}, until <t:${Math.floor(opinion.closesAt.getTime() / 1000)}:f>. One vote a member; press another to change it. The asker does not vote. Case ${opinion.id}`,
      ),
      { kind: 'buttons', buttons: opinion.closed ? closedButtons(opinion) : openButtons(opinion) },
      { kind: 'buttons', buttons: [curatorButton(opinion, opinion.closed ? 'Decide anew' : 'Settle')] },
      ...firstAidButtons(shown),
    ],
    foldedNotice: md`-# Shortened to fit. Press First aid for the rest.`,
  };
}

/** Without a photo the club has words alone to go by; the asker may not have one, so they are asked kindly. */
const photoWantedBlocks = ({ photoName, wantsThread, askerName }: Case): Block[] =>
  photoName
    ? []
    : [
        text(
          md`**Asked without a photo.** ${askerName}, please add a photo to this ${wantsThread ? 'thread' : 'channel'} if you can: through the glass, in white light, from the side, with something beside it for size.`,
        ),
      ];

/** Tells the asker how it ended; the one message that mentions them. */
export function noticeView(shown: CaseShown, closed: Closed): MessageView {
  const { base, opinion, ballots, call } = shown;
  const critter = closed.entry === null ? undefined : base.critters.get(closed.entry);
  return {
    audience: 'everyone',
    tone: critter && isGrave(critter) ? 'urgent' : 'plain',
    blocks: [
      text(md`${mentionOf(opinion.askerId)}, your second opinion is closed (case ${opinion.id}).`),
      ...peopleBlocks(shown),
      text(closedText(base, closed)),
      text(joined([tallyText(ballots), callText(call)])),
      ...(critter ? [text(md`**What to do.** ${critter.now}`)] : adviceBlocks(closed)),
      ...(critter
        ? [
            {
              kind: 'buttons',
              buttons: [{ label: `Card: ${critter.name}`, act: 'card', args: [critter.id] }],
            } satisfies Block,
          ]
        : []),
    ],
  };
}

/** Stands where a notice stood whose decision was taken back. */
export function takenBackView({ id }: Case): MessageView {
  return {
    audience: 'everyone',
    tone: 'plain',
    blocks: [text(md`A curator took this decision back. Case ${id} stands as it did before.`)],
  };
}

/** Without a named animal the careful act is all there is to say. */
function adviceBlocks({ verdict }: Closed): Block[] {
  if (verdict === 'harmless')
    return [text(md`**What to do.** Leave it, and keep watching: votes on a photo can be wrong.`)];
  if (verdict === 'pest')
    return [
      text(md`**What to do.** Keep it apart from your corals until it has a name: ask again with a sharper photo.`),
    ];
  return [text(SAFE_HANDLING)];
}

/** Only an id of Discord's own making goes in; everything else a member wrote is escaped. */
const mentionOf = (memberId: string): Markdown => ({ markdown: `<@${memberId.replace(/\D/g, '')}>` });

const namedCritters = ({ base, ballots }: CaseShown): Critter[] =>
  ballots.flatMap(({ entry }) => (entry === null ? [] : (base.critters.get(entry) ?? [])));

const dangersOf = (shown: CaseShown): Critter[] => dangerousOf([...shown.bot.dangers, ...namedCritters(shown)]);

/** The animal that a curator settled on. */
const settledCritter = ({ base, opinion: { closed } }: CaseShown): Critter | undefined =>
  closed?.how === 'settled' ? base.critters.get(closed.entry ?? '') : undefined;

/** Once a curator has settled what it is, only that animal is warned of; before, whatever is dangerous and possible. */
function warnedOf(shown: CaseShown): Critter[] {
  const settled = settledCritter(shown);
  return settled ? dangerousOf([settled]) : dangersOf(shown);
}

/** People first: the cautions, before any vote. */
function peopleBlocks(shown: CaseShown): Block[] {
  const [worst, ...others] = warnedOf(shown);
  if (!worst) return [];
  const caution = worst.caution ?? worst.matters;
  return [
    text(
      settledCritter(shown) ? md`**For people.** ${caution}` : md`**For people.** It may be ${worst.name}: ${caution}`,
    ),
    ...(others.length > 0 ? [text(md`Mind also: ${others.map(({ name }) => name).join(', ')}.`, 2)] : []),
  ];
}

/** The row that fits whatever it was; nobody who is hurt goes without it. */
const WHATEVER_IT_WAS = 'hurt-at-tank';

/** First aid in full where the asker's words sound as if somebody was hurt. */
function helpBlocks(shown: CaseShown): Block[] {
  const [worst] = warnedOf(shown);
  const { alarm, hurt } = shown.bot.evidence;
  if (worst && alarm) return firstAidBlocks(shown.base, worst);
  const whatever = hurt.length > 0 ? shown.base.firstAid.get(WHATEVER_IT_WAS) : undefined;
  return whatever ? [text(firstAidText(whatever))] : [];
}

function firstAidButtons(shown: CaseShown): Block[] {
  const [worst] = warnedOf(shown);
  return worst
    ? [{ kind: 'buttons', buttons: [{ label: 'First aid', act: 'first-aid', args: [worst.id], style: 'danger' }] }]
    : [];
}

/** What the bot makes of the asker's words. It does not look at photos, and says so. */
function thoughtBlocks({ bot: { decision }, answered, opinion }: CaseShown): Block[] {
  if (!decision)
    return [text(md`I have no words to go by, and I do not look at photos. So this one is for human eyes.`)];
  const by = answered.length === 0 ? 'words' : opinion.text === '' ? 'answers' : 'words and answers';
  const [top] = decision.candidates;
  const headline =
    decision.kind === 'likely' && top
      ? md`**By the ${by} alone:** ${top.critter.name}, likely.`
      : md`**By the ${by} alone I can’t tell.**`;
  const lines = decision.candidates.map(
    ({ critter, probability }) => md`- ${critter.name}, ${chanceInWords(probability)} (${adviceOf(critter)})`,
  );
  const notRuledOut =
    decision.notRuledOut.length > 0
      ? [md`Not ruled out: ${decision.notRuledOut.map(({ name }) => name).join(', ')}.`]
      : [];
  return [
    text(joined([headline, ...lines, ...notRuledOut, md`-# I do not look at photos: that is what the club is for.`])),
  ];
}

/** The animals that voters named, the most named first. */
function namedLines(base: KnowledgeBase, ballots: readonly WeighedBallot[]): Markdown[] {
  const counts = new Map<string, number>();
  for (const { entry } of ballots) if (entry !== null) counts.set(entry, (counts.get(entry) ?? 0) + 1);
  const lines = [...counts]
    .sort(([, one], [, other]) => other - one)
    .slice(0, 5)
    .map(([id, count]) => md`${entryText(base, id)} ${count}`);
  return lines.length > 0 ? [md`Named: ${joined(lines, ' · ')}`] : [];
}

const openButtons = ({ id }: Case): ButtonView[] => [
  { label: 'Pest', act: 'opinion-vote', args: [String(id), 'pest'] },
  { label: 'Harmless', act: 'opinion-vote', args: [String(id), 'harmless'] },
  { label: 'Can’t tell', act: 'opinion-vote', args: [String(id), 'cannot-tell'] },
  { label: 'Which animal?', act: 'opinion-which', args: [String(id)], style: 'primary' },
  { label: 'Withdraw', act: 'opinion-withdraw', args: [String(id)] },
];

const closedButtons = ({ id, undo }: Case): ButtonView[] => [
  { label: 'Reopen', act: 'opinion-reopen', args: [String(id)] },
  ...(undo ? [{ label: 'Undo', act: 'opinion-undo', args: [String(id)] }] : []),
];

const curatorButton = ({ id }: Case, label: string): ButtonView => ({
  label,
  act: 'opinion-settle',
  args: [String(id)],
});

function toneOf(shown: CaseShown): MessageView['tone'] {
  if (warnedOf(shown).some(isGrave)) return 'urgent';
  return shown.opinion.closed ? 'plain' : 'watch';
}
