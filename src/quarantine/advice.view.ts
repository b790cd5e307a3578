import { joined, md, type Block, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { kindsOf, type Advice, type Weighed } from './advice.ts';
import type { Quarantine } from './quarantine.ts';
import { standingWords, text } from './state-words.ts';
import type { Suited } from './suits.ts';

type Base = Pick<KnowledgeBase, 'fish' | 'purposes' | 'sources'>;
const MOST_STARTS = 4;
const MOST_NEEDS = 2;
const MOST_OPTIONS = 25;

/** What these animals ask for: the best plan and why, what else there is, what they do not bear. */
export function adviceView(base: Base, quarantine: Quarantine, advice: Advice): MessageView {
  const { purpose, first, others, refused, heldBack } = advice;
  const kinds = kindsOf(base, quarantine);
  const known = purpose.for === 'fish' && kinds.certain.length > 0 ? kinds.certain.map(({ name }) => name) : [];
  const isUnknown = purpose.for === 'fish' && known.length === 0 && kinds.shared.length === 0;
  return {
    audience: 'member',
    tone: purpose.urgent ? 'urgent' : 'plain',
    blocks: [
      text(md`## ${quarantine.animals}: which plan?`),
      text(md`**${purpose.label}**${known.length > 0 ? md` (${known.join(', ')})` : md``}. ${purpose.says}`),
      ...(first
        ? [text(joined([md`**Best here: ${first.plan.name}**`, md`${first.row.why}`, because(base, first)]))]
        : [text(md`**None of these begins without a fish vet.** Ring one, and watch until then.`)]),
      ...(others.length > 0
        ? [text(joined([md`**Also possible**`, ...others.map((each) => line(base, each))]), 1)]
        : []),
      ...(refused.length > 0 ? [text(joined([md`**Not for these fish**`, ...refusedLines(refused)]))] : []),
      ...(heldBack
        ? [text(md`Your words may fit velvet, so no medicine and no moves are offered without a fish vet.`)]
        : []),
      ...(isUnknown
        ? [text(md`Which fish? Fish differ in what they bear: add **fish:** and I can say which plans these do.`)]
        : []),
      ...kindSelects(quarantine, kinds.shared),
      purposeSelect(base, quarantine),
      { kind: 'buttons', buttons: starts(quarantine, advice) },
      text(
        md`-# Nothing has begun yet. I keep dates and name no illness and no dose; a fish vet decides on medicines.`,
      ),
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}

const because = (base: Base, each: Weighed): Markdown => md`-# (${trusted(base, each)})`;

const trusted = (base: Base, { row: { standing, source } }: Weighed): string =>
  standingWords(base, { standing, ...(source === undefined ? {} : { source }) });

function line(base: Base, each: Weighed): Markdown {
  const { plan, row, suited } = each;
  const vet = plan.vetLed ? ' A vet leads it.' : '';
  const care = suited.length > 0 ? ` ${names(suited)} may feel it: go slowly.` : '';
  return md`- **${plan.name}**: ${row.why}${row.why.includes('vet leads') ? '' : vet}${care} (${trusted(base, each)})`;
}

const names = (suited: readonly Suited[]): string => suited.map(({ fish }) => fish.name).join(', ');

/** Each plan with whom it does not suit, then once what those fish need. */
function refusedLines(refused: readonly Weighed[]): Markdown[] {
  const worst = [...new Set(refused.flatMap(({ suited }) => suited.filter(isHard).map(({ fish }) => fish)))];
  return [
    ...refused.map(({ plan, suited }) => {
      const never = suited.filter(({ tolerance }) => tolerance === 'avoid');
      const vetOnly = suited.filter(({ tolerance }) => tolerance === 'vet-only');
      const says = [
        ...(never.length > 0 ? [`not borne by ${names(never)}`] : []),
        ...(vetOnly.length > 0 ? [`only when a fish vet directs it for ${names(vetOnly)}`] : []),
      ];
      return md`- **${plan.name}**: ${says.join('; ')}.`;
    }),
    ...(worst.length <= MOST_NEEDS ? worst.map(({ name, needs }) => md`**${name}:** ${needs}`) : []),
  ];
}

const isHard = ({ tolerance }: Suited): boolean => tolerance !== 'caution';

/** For each word that leaves the kind open. */
const kindSelects = ({ id }: Quarantine, shared: ReturnType<typeof kindsOf>['shared']): Block[] =>
  shared.slice(0, 1).map(({ word, kinds }) => ({
    kind: 'select',
    act: 'quarantine-kind',
    args: [String(id)],
    placeholder: `Which ${word} is it?`,
    options: kinds.slice(0, MOST_OPTIONS).map((kind) => ({ label: kind.name, value: kind.id })),
  }));

export const purposeSelect = ({ purposes }: Pick<Base, 'purposes'>, { id }: Quarantine): Block => ({
  kind: 'select',
  act: 'quarantine-for',
  args: [String(id)],
  placeholder: 'What is it for?',
  options: [...purposes.values()].slice(0, MOST_OPTIONS).map((each) => ({ label: each.label, value: each.id })),
});

function starts({ id }: Quarantine, { first, others }: Advice): ButtonView[] {
  const offered = [...(first ? [first] : []), ...others].slice(0, MOST_STARTS);
  return [
    ...offered.map(({ plan }): ButtonView => ({
      label: `Start ${plan.name}`.slice(0, 80),
      act: 'quarantine-choose',
      args: [String(id), plan.id],
      style: plan === first?.plan ? 'primary' : 'secondary',
    })),
    { label: 'Not yet', act: 'quarantine-drop', args: [String(id)] },
  ];
}

/** Where the words do not say what it is for. */
export const askPurposeView = (base: Base, quarantine: Quarantine): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [
    text(md`## ${quarantine.animals}: what is it for?`),
    text(md`Choose below, and I say which plan fits, and why. What you gave is kept.`),
    purposeSelect(base, quarantine),
    { kind: 'buttons', buttons: [{ label: 'Not yet', act: 'quarantine-drop', args: [String(quarantine.id)] }] },
  ],
});
