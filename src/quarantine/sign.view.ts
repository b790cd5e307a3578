import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Fish } from '../knowledge/fish.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Sign } from '../knowledge/sign.ts';
import type { DateChange } from './date-change.ts';
import type { Seen } from './plan-event.ts';
import type { Quarantine } from './quarantine.ts';
import type { Fit } from './signs.ts';
import { ended, moment, standingWords, text } from './state-words.ts';

const URGENCY = {
  emergency: 'Now',
  urgent: 'Today',
  soon: 'In the next days',
  watch: 'Keep watching',
} as const;
const DO = { emergency: 'Do now', urgent: 'Do first', soon: 'Do first', watch: 'Do' } as const;
const FITS = { strong: 'Fits well', weak: 'Could also be' } as const;

/** The entry that stands for what no work was cited for. */
const NO_SOURCE = 'common-practice';

/** A sign as one keeper told it. */
export type ToldSign = {
  quarantine: Quarantine;
  sign: Sign;
  /** What a member typed, where it was read as this sign. */
  typed?: string | undefined;
  /** The event that holds it and the button that takes it back; null where nothing could be noted. */
  noted: { eventId: string; takeBack: ButtonView } | null;
  /** Kinds of fish that wait here. */
  fish: readonly Fish[];
};

const heading = ({ sign, typed, fish }: ToldSign): Block[] => [
  text(md`## ${sign.name}`),
  ...(typed === undefined ? [] : [text(md`-# I read “${typed}” as this.`)]),
  // What is normal for the kind goes before any alarm.
  ...(sign.mayBeRest
    ? fish.flatMap(({ name, rest }) => (rest === undefined ? [] : [text(md`**Normal for ${lower(name)}:** ${rest}`)]))
    : []),
];

/** The question of a sign, before any urgency; an emergency's first act is never held back for it. */
export function askView(told: ToldSign, question: string, until: Fit): MessageView {
  const { quarantine, sign, noted } = told;
  const isEmergency = until.urgency === 'emergency';
  const reply = (label: string, which: string): ButtonView => ({
    label,
    act: 'quarantine-reply',
    args: [String(quarantine.id), sign.id, which, noted?.eventId ?? '-'],
  });
  return {
    audience: 'member',
    tone: isEmergency ? 'urgent' : 'watch',
    blocks: [
      ...heading(told),
      ...(isEmergency ? [text(md`**Until you know:** ${until.first}${vetOf(until)}`)] : []),
      text(md`**One question:** ${question}`),
      {
        kind: 'buttons',
        buttons: [...sign.answers.map(({ says }, at) => reply(says, String(at))), reply('Can’t tell', 'x')],
      },
      ...(noted
        ? [
            text(md`-# Noted. Until you answer, it counts as the worst of what it may fit.`),
            { kind: 'buttons', buttons: [noted.takeBack] } as const,
          ]
        : []),
    ],
  };
}

export type WhatFollows = {
  rows: readonly Fit[];
  effect: Seen['effect'];
  /** Null where nothing was noted. */
  change: DateChange | null;
  /** So much was noted before that no more is taken. */
  isFull: boolean;
  /** Asks how they ate, and keeps by which reply it goes on. */
  asksAppetite: { reply: string } | null;
  /** The plan by which this one waits. */
  planId: string;
};

const nothingNoted = (isFull: boolean) =>
  isFull
    ? md`**Nothing was noted:** the book of this quarantine is full. Nothing in it is lost; **/quarantine finish** closes it and **/quarantine start** begins a new one.`
    : md`**Nothing was noted:** this quarantine has not begun.`;

/** What a sign may fit, the most urgent first, what to do, and how the dates stand after it. Never a diagnosis. */
export function toldView(base: KnowledgeBase, told: ToldSign, follows: WhatFollows): MessageView {
  const { quarantine, noted } = told;
  const { rows, change, asksAppetite, planId, isFull } = follows;
  const urgency = rows[0]?.urgency;
  const plans = [...new Set(rows.map(({ plan }) => plan))].flatMap((id) =>
    id === undefined || id === planId ? [] : (base.plans.get(id)?.name ?? []),
  );
  const aid = [...new Set(rows.flatMap(({ firstAid }) => firstAid))].flatMap((id) => base.firstAid.get(id) ?? []);
  return {
    audience: 'member',
    tone: urgency === 'emergency' ? 'urgent' : urgency === 'watch' ? 'plain' : 'watch',
    blocks: [
      ...heading(told),
      ...rowBlocks(base, rows),
      ...plans.map((name) =>
        text(
          md`If that fits, **/quarantine start** with the plan **${name}** keeps the hours; this count goes on beside it.`,
        ),
      ),
      text(change ? dateWords(change, follows) : nothingNoted(isFull)),
      ...(asksAppetite && noted ? appetiteBlocks(quarantine.id, noted.eventId, asksAppetite.reply) : []),
      {
        kind: 'buttons',
        buttons: [
          ...(noted ? [noted.takeBack] : []),
          ...aid.map(({ id }): ButtonView => ({
            label: 'First aid for people',
            act: 'aid',
            args: [id],
            style: 'danger',
          })),
          { label: 'Today', act: 'quarantine-today', args: [String(quarantine.id)] },
        ],
      },
      text(md`-# What it may fit is no diagnosis; a clear photo and a vet who knows fish tell more. I name no dose.`),
    ],
    foldedNotice: md`-# Shortened to fit: the most urgent stands first.`,
  };
}

function rowBlocks(base: KnowledgeBase, rows: readonly Fit[]): Block[] {
  if (rows.length === 0)
    return [
      text(md`**Nothing that I know explains it.** Take a photo and a short film, and ask a vet who knows fish.`),
    ];
  const [top] = rows;
  return [
    ...(top ? [text(md`**${DO[top.urgency]}:** ${top.first}${vetOf(top)}`)] : []),
    ...rows.map((row, at) =>
      text(rowWords(base, row, at > 0 && rows.findIndex(({ first }) => first === row.first) === at), at),
    ),
  ];
}

/** One thing that it may fit. What to do stands once, with the first row that says so; that of the first is on top. */
const rowWords = (base: KnowledgeBase, row: Fit, saysWhatToDo: boolean): Markdown =>
  joined([
    md`**${URGENCY[row.urgency]} · ${row.normal ? 'Normal, if it fits' : FITS[row.weight]}: ${row.condition}.** ${row.tell}`,
    ...(saysWhatToDo ? [md`Do first: ${row.first}${vetOf(row)}`] : []),
    md`-# ${standingWords(base, row.source === NO_SOURCE ? { standing: row.standing } : row)}`,
  ]);

const vetOf = ({ vet }: Fit): Markdown => (vet === undefined ? md`` : md` **Vet:** ${ended(vet)}`);

const ATE = { normal: 'Ate normally', some: 'Ate a little', none: 'Ate nothing' } as const;

const appetiteBlocks = (quarantineId: number, eventId: string, reply: string): Block[] => [
  text(md`**How did they eat?** One press, and the look of the day is done.`),
  {
    kind: 'buttons',
    buttons: Object.entries(ATE).map(([appetite, label]) => ({
      label,
      act: 'quarantine-ate',
      args: [String(quarantineId), eventId, appetite, reply],
    })),
  },
];

/** What a sign did to the dates, no more and no less. */
export function dateWords(change: DateChange, { effect, rows }: Pick<WhatFollows, 'effect' | 'rows'>): Markdown {
  const { anew, added, asked, reopened, endBefore, endAfter } = change;
  const what = [
    ...(['tomorrow', 'today', 'now'] as const).flatMap((when) => {
      const names = anew.filter(({ begins }) => begins === when).map(({ name }) => name);
      if (names.length === 0) return [];
      return [
        when === 'now'
          ? md`**Begins anew now:** ${listed(names)}.`
          : md`**The days begin anew ${when}:** ${listed(names)}.`,
      ];
    }),
    ...added.map(
      ({ name, days }) =>
        md`**${days === 7 ? 'A week is' : days === 1 ? 'A day is' : `${days} days are`} added:** “${name}”.`,
    ),
    ...asked.map((name) => md`**Asked for as well now:** “${name}”.`),
    ...(reopened ? [md`All was done; now it is open again.`] : []),
  ];
  const moved = endBefore?.getTime() !== endAfter?.getTime();
  const end = !endAfter
    ? md`The end has no date now.`
    : moved && endBefore
      ? md`Earliest end now ${moment(endAfter, 'D')}; without it ${moment(endBefore, 'D')}.`
      : md`The earliest end stays ${moment(endAfter, 'D')}.`;
  if (what.length === 0 && !moved) {
    const why =
      effect !== 'none'
        ? md``
        : rows.length > 0 && rows.every(({ normal }) => normal)
          ? md` What is normal for the kind holds up nothing.`
          : md` It says nothing of the animals that wait here.`;
    return md`Noted. **No date changes.**${why} ${endAfter ? end : md``}`;
  }
  return joined([md`Noted.`, ...what, end], ' ');
}

const listed = (names: readonly string[]) => names.map((name) => `“${name}”`).join(' and ');
const lower = (name: string) => name.charAt(0).toLowerCase() + name.slice(1);
