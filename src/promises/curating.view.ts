import { md, mentionOf, type Block, type FormView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Offer } from '../swaps/offer.ts';
import type { CuratorAct, NotCurated, Report } from './curated.ts';
import type { NoShow } from './promise.ts';
import { moment } from './promise-words.ts';
import { saysView } from './promise.view.ts';

export const REASON_FIELD = 'reason';
export const WORDS_FIELD = 'words';
export const MOST_REASON = 300;
export const MOST_WORDS = 500;
const MOST_LISTED = 8;

const text = (markdown: Markdown): Block => ({ kind: 'text', text: markdown });

export const forCuratorsView = (): MessageView =>
  saysView(
    'For curators',
    md`Curators are members with the role **curator**, or who may manage messages. Is something wrong with an offer? **/frag report** tells them.`,
  );

export const reportForm = ({ id, details }: Offer): FormView => ({
  kind: 'form',
  act: 'frag-reported',
  args: [String(id)],
  title: `Report ${details.name}`.slice(0, 45),
  fields: [
    {
      kind: 'paragraph',
      name: WORDS_FIELD,
      label: 'What is wrong?',
      description: 'Curators read it. The keeper is not told who wrote.',
      required: true,
      mostCharacters: MOST_WORDS,
      placeholder: 'It is named Zoanthus, but the photo shows Palythoa',
    },
  ],
});

export const reportedView = (): MessageView =>
  saysView('Thank you', md`The curators see it in their list. I tell you once when they have looked.`);

export const noWordsView = (): MessageView =>
  saysView('What is wrong?', md`Write it in a few words: a name, a pest, a photo. Nothing was sent.`);

const FORM_TITLES: Record<'hide' | 'settle', string> = {
  hide: 'Take the offer down',
  settle: 'Settle the report',
};

/** Asks a curator for the reason, which the keeper or the reporter reads. */
export const reasonForm = (what: 'hide' | 'settle', id: number): FormView => ({
  kind: 'form',
  act: 'frag-curated',
  args: [what, String(id)],
  title: FORM_TITLES[what],
  fields: [
    {
      kind: 'line',
      name: REASON_FIELD,
      label: what === 'settle' ? 'What you found' : 'The reason',
      description: what === 'settle' ? 'Whoever reported it reads this.' : 'The keeper reads it.',
      required: true,
      mostCharacters: MOST_REASON,
    },
  ],
});

const DONE: Record<CuratorAct | 'undo', string> = {
  hide: 'It is taken down',
  show: 'It is back',
  map: 'Its coral is set',
  merge: 'They are joined',
  edit: 'Its words are changed',
  undo: 'It is as before',
};

export const doneView = ({ id, details }: Offer, act: CuratorAct | 'undo'): MessageView => ({
  ...saysView(DONE[act], md`Offer ${id}, **${details.name}**. Its keeper was told, with the reason; the card follows.`),
  blocks: [
    ...saysView(
      DONE[act],
      md`Offer ${id}, **${details.name}**. Its keeper was told, with the reason; the card follows.`,
    ).blocks,
    ...(act === 'undo'
      ? []
      : [
          {
            kind: 'buttons',
            buttons: [{ label: 'Undo', act: 'frag-curator-undo', args: [String(id)] }],
          } satisfies Block,
        ]),
  ],
});

const WHY_NOT: Record<NotCurated | 'gone', string> = {
  own: 'It is your own offer: another curator decides on that. **/frag mine** changes it as its keeper.',
  'hidden-already': 'It is taken down already.',
  'not-hidden': 'It is not taken down.',
  closed: 'It is not open, so there is nothing to do about it.',
  same: 'That is how it is already.',
  'other-keeper': 'Only two offers of the same member can be joined.',
  'too-many': 'Together they would be more pieces than one offer may have.',
  'promised-twice': 'Somebody is promised a piece of both. Join them once one of the two was handed over.',
  merged: 'It was joined with another offer. Undo that instead: **act: undo**.',
  nothing: 'There is nothing of a curator to take back.',
  'changed-since': 'Too much has changed since then to take it back exactly. Nothing was done.',
  gone: 'I no longer find that offer.',
};
export const notCuratedView = (why: NotCurated | 'gone'): MessageView =>
  saysView('Nothing was changed', { markdown: WHY_NOT[why] });

/** What members reported and nobody has settled, and which hand-overs were missed. For curators only. */
export function reportsView(
  reports: readonly { report: Report; offer: Offer }[],
  noShows: readonly { noShow: NoShow; offer: Offer }[],
): MessageView {
  const shown = reports.slice(0, MOST_LISTED);
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(reports.length === 0 ? md`## No open reports` : md`## Open reports: ${reports.length}`),
      ...shown.map(({ report, offer }) =>
        text(
          md`**Report ${report.id}** · offer ${offer.id}, **${offer.details.name}** of ${mentionOf(offer.memberId)} · ${moment(report.at, 'R')}
${mentionOf(report.byId)}: “${report.words}”`,
        ),
      ),
      ...(shown.length > 0
        ? [
            {
              kind: 'select',
              act: 'frag-report-open',
              args: [],
              placeholder: 'Open one of them',
              options: shown.map(({ report, offer }) => ({
                label: `Report ${report.id}: ${offer.details.name}`.slice(0, 100),
                value: String(report.id),
              })),
            } satisfies Block,
          ]
        : []),
      ...(noShows.length > 0
        ? [
            { kind: 'rule' } satisfies Block,
            text(md`**Missed hand-overs, as noted.** Only the two and you see this; it is one side’s word.`),
            ...noShows
              .slice(0, MOST_LISTED)
              .map(({ noShow, offer }) =>
                text(
                  md`- ${mentionOf(noShow.byId)} notes that ${mentionOf(noShow.aboutId)} did not come: **${offer.details.name}**, ${moment(noShow.at, 'D')}`,
                ),
              ),
          ]
        : []),
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}

export function reportView(report: Report, offer: Offer): MessageView {
  const isDown = offer.state === 'hidden';
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      text(md`## Report ${report.id}`),
      text(
        md`Offer ${offer.id}, **${offer.details.name}** of ${mentionOf(offer.memberId)}${isDown ? ', taken down' : ''}`,
      ),
      ...(offer.details.special === null ? [] : [text(md`${offer.details.special}`)]),
      text(md`${mentionOf(report.byId)} wrote: “${report.words}”`),
      ...(report.settledBy === null
        ? [
            {
              kind: 'buttons',
              buttons: [
                ...(isDown
                  ? []
                  : [{ label: 'Take it down', act: 'frag-hide', args: [String(offer.id)], style: 'danger' } as const]),
                { label: 'Settle it', act: 'frag-settle', args: [String(report.id)], style: 'primary' },
              ],
            } satisfies Block,
          ]
        : [text(md`Settled by ${mentionOf(report.settledBy)}: ${report.settledHow ?? ''}`)]),
      text(md`-# To set its coral, change its words or join two: **/frag curate**.`),
    ],
  };
}

export const settledView = (isFirst: boolean): MessageView =>
  isFirst
    ? saysView('Settled', md`Whoever reported it is told once.`)
    : saysView('Settled before', md`Another curator was quicker. Nothing was changed.`);

export const noReportView = (): MessageView =>
  saysView('I don’t know that report', md`**/frag reports** lists what is open.`);
