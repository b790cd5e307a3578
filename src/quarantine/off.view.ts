import { firstAidText } from '../critters/first-aid.view.ts';
import { md, type Block, type ButtonView, type MessageView, type SelectOption } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Sign } from '../knowledge/sign.ts';
import { isOfPeople, signsUnder } from './sign-told.ts';
import { text } from './state-words.ts';

/** What holds whatever it was that hurt somebody. */
const WHATEVER_IT_WAS = 'hurt-at-tank';
const MOST_SHOWN_WHOLE = 2;
const MOST_READ_BACK = 120;

export const NOT_A_DOCTOR = md`-# First aid, not medical advice. Call your local emergency number or poison centre; a doctor decides.`;

/** What goes along from one message to the next: how they ate, and an event that a later word replaces. */
export type Along = { quarantineId: number; appetite: string | null; replaces: string | null };
export const alongArgs = ({ quarantineId, appetite, replaces }: Along): string[] => [
  String(quarantineId),
  appetite ?? '-',
  replaces ?? '-',
];

const hurtButton: ButtonView = {
  label: 'A person or a pet is hurt',
  act: 'quarantine-hurt',
  args: [],
  style: 'danger',
};
const wordsButton = (along: Along): ButtonView => ({
  label: 'In my words',
  act: 'quarantine-words',
  args: alongArgs(along),
});

const optionOf = ({ id, name, aliases }: Sign): SelectOption => ({
  label: name,
  value: id,
  ...(aliases.length > 0 ? { description: `“${aliases.slice(0, 3).join('”, “')}”`.slice(0, 100) } : {}),
});

const signSelect = (along: Along, signs: readonly Sign[], placeholder: string): Block => ({
  kind: 'select',
  act: 'quarantine-sign',
  args: alongArgs(along),
  placeholder,
  options: signs.map(optionOf),
});

/** People first, then what cannot wait, then the whole list. */
const emergencyBlocks = (plan: Plan): Block[] => [
  text(md`**Is a person or a pet hurt?** That comes first.`),
  { kind: 'buttons', buttons: [hurtButton] },
  text(
    plan.for === 'fish'
      ? md`**Gasping, rolling or lying fish:** an air stone and moving water now, then test ammonia, temperature and salinity, and call a fish vet. Then choose it here.`
      : md`**Flesh that melts or peels within hours, or a sea cucumber in a pump:** choose it here now; what to do first comes at once.`,
  ),
];

/** What may be off under this plan, the most urgent first. */
export const offView = (plan: Plan, signs: Iterable<Sign>, along: Along): MessageView => ({
  audience: 'member',
  tone: 'watch',
  blocks: [
    ...emergencyBlocks(plan),
    signSelect(along, signsUnder(plan, signs), 'What do you see?'),
    { kind: 'buttons', buttons: [wordsButton(along)] },
  ],
});

/** Several signs have what was typed in their names: which one is it? */
export const whichSignView = (typed: string, matches: readonly Sign[], along: Along): MessageView => ({
  audience: 'member',
  tone: 'watch',
  blocks: [
    text(md`## Which of these is it?`),
    ...(matches.some(isOfPeople) ? [text(md`**People and pets come first**, on top of the list.`)] : []),
    text(md`I read “${readBack(typed)}”. Nothing is noted yet.`),
    signSelect(along, matches, 'What do you see?'),
    { kind: 'buttons', buttons: [hurtButton, wordsButton(along)] },
  ],
});

/** What was typed fits no sign. Nothing was noted. */
export const noSignView = (typed: string, plan: Plan, signs: Iterable<Sign>, along: Along): MessageView => ({
  audience: 'member',
  tone: 'watch',
  blocks: [
    ...emergencyBlocks(plan),
    text(
      md`I know no sign by “${readBack(typed)}”, so **nothing was noted**. Choose the nearest from the list, or say it in other words: what you see, where on the animal.`,
    ),
    signSelect(along, signsUnder(plan, signs), 'What do you see?'),
    { kind: 'buttons', buttons: [wordsButton(along)] },
  ],
});

/** The answer to a question leads to another sign. */
export const otherSignView = (says: string, others: readonly Sign[], along: Along): MessageView => ({
  audience: 'member',
  tone: 'watch',
  blocks: [
    text(md`## ${says}: which of these is it?`),
    text(md`That is another sign. What you told stays noted until you choose.`),
    signSelect(along, others, 'What do you see?'),
    { kind: 'buttons', buttons: [wordsButton(along)] },
  ],
});

const readBack = (typed: string) => {
  const plain = typed.replace(/\s+/g, ' ').trim();
  return plain.length > MOST_READ_BACK ? `${plain.slice(0, MOST_READ_BACK)}…` : plain;
};

const ofPeople = (signs: Iterable<Sign>) => [...signs].filter(isOfPeople);
const withoutWho = (name: string) => name.replace(/^Person: /, '').replace(/^./, (letter) => letter.toUpperCase());

const personOptions = (signs: readonly Sign[]): SelectOption[] =>
  signs.map((sign) => ({ ...optionOf(sign), label: withoutWho(sign.name) }));

/** First aid for whatever it was, and the way to what it was. For anybody, with or without a quarantine. */
export function hurtView({ firstAid, signs }: KnowledgeBase): MessageView {
  const row = firstAid.get(WHATEVER_IT_WAS);
  return {
    audience: 'member',
    tone: 'urgent',
    blocks: [
      text(md`## First aid`),
      ...(row ? [text(firstAidText(row))] : []),
      {
        kind: 'select',
        act: 'quarantine-hurt-by',
        args: [],
        placeholder: 'What happened?',
        options: personOptions(ofPeople(signs.values())),
      },
      text(NOT_A_DOCTOR),
    ],
  };
}

/** Several things that can happen to a person fit what was typed: those go first. */
export const whichHurtView = (base: KnowledgeBase, matches: readonly Sign[]): MessageView => {
  const view = hurtView(base);
  return {
    ...view,
    blocks: view.blocks.map((block) =>
      block.kind === 'select'
        ? { ...block, options: personOptions([...new Set([...matches, ...ofPeople(base.signs.values())])]) }
        : block,
    ),
  };
};

/** What happened to a person or a pet: what to do first, then the whole first aid. Not a word about animals of a tank. */
export function personView({ firstAid }: KnowledgeBase, { name, fits }: Sign): MessageView {
  const rows = [...new Set(fits.flatMap((fit) => fit.firstAid))].flatMap((id) => firstAid.get(id) ?? []);
  const whole = rows.length <= MOST_SHOWN_WHOLE ? rows : [];
  return {
    audience: 'member',
    tone: 'urgent',
    blocks: [
      text(md`## ${withoutWho(name)}`),
      ...fits.map(({ first, tell }) => text(md`**Now.** ${first}\n${tell}`)),
      ...whole.map((row) => text(firstAidText(row))),
      ...(whole.length === 0 && rows.length > 0
        ? [
            text(md`**What was it?** Press it for the whole first aid.`),
            { kind: 'buttons', buttons: rows.map(aidButton) } as const,
          ]
        : []),
      text(NOT_A_DOCTOR),
      text(md`-# Nothing of this is noted in a quarantine.`),
    ],
  };
}

/** One row of first aid, by what somebody met. */
export const aidButton = ({ id, met }: { id: string; met: string }): ButtonView => ({
  label: (/^[^.]*/.exec(met)?.[0] ?? met).slice(0, 80),
  act: 'aid',
  args: [id],
  style: 'danger',
});
