import { joined, md, mentionOf, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Purpose } from '../knowledge/purpose.ts';
import type { Quarantine } from './quarantine.ts';
import { labelInWords } from './start-words.ts';
import { moment } from './state-words.ts';
import type { Suited } from './suits.ts';

/** Stands in until a keeper has said where they live. */
export const UNKNOWN_ZONE = 'Etc/UTC';

const privately = (title: string, tone: MessageView['tone'], blocks: readonly Block[]): MessageView => ({
  audience: 'member',
  tone,
  blocks: [{ kind: 'text', text: md`## ${title}` }, ...blocks],
});
const text = (markdown: ReturnType<typeof md>): Block => ({ kind: 'text', text: markdown });

export const saysView = (title: string, ...lines: ReturnType<typeof md>[]): MessageView =>
  privately(title, 'plain', lines.map(text));

/** What has to be true before the clock starts; a yes to all of it starts it. With `from`, what ends for it. */
export function beforeStartView(
  quarantine: Quarantine,
  plan: Plan,
  sensitive: readonly Suited[],
  from?: string,
): MessageView {
  const option = plan.options.find(({ id }) => id === quarantine.option);
  const questions = [...plan.before, ...(option?.needs ?? [])];
  const tone = plan.emergency ? 'urgent' : plan.medicated ? 'watch' : 'plain';
  return privately(`${quarantine.animals}: ${plan.name}`, tone, [
    ...(plan.emergency ? [text(md`**Now.** ${plan.emergency}`)] : []),
    text(md`**For:** ${plan.purpose}`),
    text(md`**Helps against:** ${plan.against} **Its limits:** ${plan.notAgainst}`),
    ...(option ? [text(md`**${option.name}.** ${option.says}`)] : []),
    ...sensitive.map(({ fish }) => text(md`**${fish.name} needs care here.** ${fish.needs}`)),
    text(md`**${plan.never}**`),
    text(joined([md`**Mind**`, ...plan.cautions.map((sentence) => md`- ${sentence}`)])),
    ...(questions.length > 0
      ? [text(joined([md`**A yes to all of this?**`, ...questions.map((question) => md`- ${question}`)]))]
      : []),
    ...(from === undefined ? [] : [text(md`**What you lose:** ${from}`)]),
    ...(quarantine.copperLabel ? [text(md`**Label:** ${labelInWords(quarantine.copperLabel)} of copper.`)] : []),
    text(
      md`-# ${quarantine.zone === UNKNOWN_ZONE ? 'I ask for your time zone once, when it starts.' : `Days are counted in ${quarantine.zone}.`} ${plan.for === 'fish' ? 'I keep dates; I name no dose, and a fish vet decides on medicines.' : 'I keep dates and name no dose.'}`,
    ),
    {
      kind: 'buttons',
      buttons: [
        {
          label: questions.length > 0 ? 'Yes to all: start' : 'Start',
          act: 'quarantine-start',
          args: [String(quarantine.id)],
          style: 'primary',
        },
        { label: 'Not yet', act: 'quarantine-drop', args: [String(quarantine.id)] },
      ],
    },
  ]);
}

/** A plan that these fish do not bear. */
export const refusedView = (
  quarantine: Quarantine,
  plan: Plan,
  sensitive: readonly Suited[],
  open: readonly string[],
): MessageView =>
  privately(`${plan.name} is not for these fish`, 'watch', [
    text(
      joined(
        sensitive
          .filter(({ tolerance }) => tolerance !== 'caution')
          .map(
            ({ fish, tolerance }) =>
              md`- **${fish.name}**: ${tolerance === 'avoid' ? 'does not bear it.' : 'only when a fish vet directs it.'} ${fish.needs}`,
          ),
      ),
    ),
    ...(open.length > 0
      ? [text(md`“${open.join('”, “')}” may be any of these. Press the button to say which, and I look again.`)]
      : []),
    text(
      md`Watching without medicine suits every fish: **observation**. If a fish vet directed this plan, send it again with **vet: yes**.`,
    ),
    whatFits(quarantine),
  ]);

const whatFits = ({ id }: Quarantine): Block => ({
  kind: 'buttons',
  buttons: [{ label: 'What fits instead?', act: 'quarantine-advice', args: [String(id)], style: 'primary' }],
});

export const twoMedicinesView = (quarantine: Quarantine, other: Quarantine): MessageView =>
  privately('One medicine at a time', 'watch', [
    text(
      md`**${other.animals}** are in a treated plan already. Two treatments at once harm fish; the worst pairs kill. If a fish vet directed both, send it again with **vet: yes**.`,
    ),
    whatFits(quarantine),
  ]);

/** Words or signs that may fit something faster than any ordinary plan. */
export const urgentView = ({ id }: Pick<Quarantine, 'id'>, purpose: Purpose, plan: Plan): MessageView =>
  privately('Not this plan now', 'urgent', [
    text(md`**${purpose.label}.** ${purpose.says}`),
    text(
      md`**${plan.name}** is too slow for that, or makes it worse. If a fish vet directed it, send it again with **vet: yes**.`,
    ),
    {
      kind: 'buttons',
      buttons: purpose.plans.slice(0, 1).map(({ plan: to }) => ({
        label: 'Open the plan for it',
        act: 'quarantine-choose',
        args: [String(id), to],
        style: 'danger',
      })),
    },
  ]);

/** Pressed by somebody who may check in, and no more. */
export const keeperOnlyView = ({ animals, memberId }: Quarantine): MessageView =>
  saysView(
    'That is for their keeper',
    md`${mentionOf(memberId)} keeps **${animals}**. You may check in and note what you see; starting, changing and closing is theirs.`,
  );

/** The first thing that is due, when a reminder comes, and when it may end. */
export function startedView(quarantine: Quarantine, today: MessageView, next: NextThings): MessageView {
  const { animals, timeOfDay, zone } = quarantine;
  const { first, remindAt, closer, end, emergency, carried, waitsForTemperature, option, look } = next;
  const looks = closer.map((at) => moment(at, 't').markdown).join(', ');
  return {
    ...today,
    replaces: true,
    blocks: [
      text(md`## ${animals}: it runs`),
      ...(emergency === undefined ? [] : [text(md`**Now.** ${emergency}`)]),
      text(
        joined([
          ...firstWords(first, emergency !== undefined, look),
          closer.length > 0
            ? md`**I remind you** of the first steps and looks at ${{ markdown: looks }}, then every day at ${timeOfDay} in ${zone}; next ${moment(remindAt, 'R')}.`
            : look === 'a look each day'
              ? md`**I remind you** every day at ${timeOfDay} in ${zone}, next ${moment(remindAt, 'R')}.`
              : md`**I remind you** at ${timeOfDay} in ${zone}, on days when something is due.`,
          ...(carried === undefined ? [] : [md`**Temperature:** ${carried}, taken over from the plan before.`]),
          end
            ? md`**Earliest end:** ${moment(end, 'D')}.`
            : waitsForTemperature
              ? md`**The dates follow** once the temperature is noted: **/quarantine log**.`
              : md`**The end has no date yet:** it waits for what has to come first.`,
          ...(option ? [option] : []),
        ]),
      ),
      text(
        md`-# Quarantine ${quarantine.id} · **/quarantine today** shows it whenever you like, **/quarantine change** changes it.`,
      ),
      ...today.blocks.filter(({ kind }) => kind === 'buttons'),
    ],
  };
}
export type NextThings = {
  first: string | null;
  remindAt: Date;
  /** Reminders of the first day that come more closely than the daily one. */
  closer: readonly Date[];
  end: Date | null;
  emergency?: string | undefined;
  /** A reading of the plan before that was taken over. */
  carried?: string | undefined;
  /** The dates of a run follow from a temperature that nobody has noted. */
  waitsForTemperature: boolean;
  /** That another option counts than the one that was chosen. */
  option: Markdown | null;
  /** How often somebody has to look; null: never. */
  look: string | null;
};

/** In an emergency the first thing was said already, so what comes after it follows. */
function firstWords(first: string | null, isEmergency: boolean, look: string | null): Markdown[] {
  if (first) return [isEmergency ? md`**Then:** ${first}` : md`**First:** ${first}`];
  return look === null ? [] : [md`**First:** ${look}. Press **All well** after it.`];
}

/** Nothing is called off by one press: the count would be lost. */
export const callOffView = ({ id, animals }: Quarantine): MessageView =>
  privately(`${animals}: not complete yet`, 'watch', [
    text(
      md`Holds or steps are still open. Call it off only if these animals no longer wait; treat everything wet of theirs as not cleared.`,
    ),
    {
      kind: 'buttons',
      buttons: [{ label: 'Call it off', act: 'quarantine-call-off', args: [String(id)], style: 'danger' }],
    },
  ]);

/** It is over; where its plan names what follows, a button begins that for the same animals. */
export const finishedView = (quarantine: Quarantine, plan: Plan, then: Plan | undefined): MessageView =>
  privately(`${quarantine.animals}: finished`, 'calm', [
    text(
      then
        ? md`Well done: **${plan.name}** is complete and off the list. The animals wait on: **${then.name}** follows. ${then.purpose}`
        : md`Well done: **${plan.name}** is complete and off the list. ${plan.for === 'display' ? 'Only fish that went through quarantine come back.' : 'If all is well at the last look, and no other plan of theirs still runs, they may move.'}`,
    ),
    ...(then
      ? [
          {
            kind: 'buttons',
            buttons: [
              {
                label: `Start ${then.name}`.slice(0, 80),
                act: 'quarantine-follow',
                args: [String(quarantine.id), then.id],
                style: 'primary',
              },
            ],
          } satisfies Block,
        ]
      : []),
  ]);
