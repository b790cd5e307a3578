import { joined, md, type Block, type MessageView } from '../discord/message-view.ts';
import type { Plan } from '../knowledge/plan.ts';
import type { Quarantine } from './quarantine.ts';
import type { Suited } from './suits.ts';

const privately = (title: string, tone: MessageView['tone'], blocks: readonly Block[]): MessageView => ({
  audience: 'member',
  tone,
  blocks: [{ kind: 'text', text: md`## ${title}` }, ...blocks],
});
const text = (markdown: ReturnType<typeof md>): Block => ({ kind: 'text', text: markdown });

export const saysView = (title: string, ...lines: ReturnType<typeof md>[]): MessageView =>
  privately(title, 'plain', lines.map(text));

/** What has to be true before the clock starts; a yes to all of it starts it. */
export function beforeStartView(quarantine: Quarantine, plan: Plan, sensitive: readonly Suited[]): MessageView {
  const option = plan.options.find(({ id }) => id === quarantine.option);
  const questions = [...plan.before, ...(option?.needs ?? [])];
  const tone = plan.emergency ? 'urgent' : plan.medicated ? 'watch' : 'plain';
  return privately(`${quarantine.animals}: ${plan.name}`, tone, [
    ...(plan.emergency ? [text(md`**Now.** ${plan.emergency}`)] : []),
    text(md`**For:** ${plan.purpose}`),
    text(md`**Helps against:** ${plan.against} **Not against:** ${plan.notAgainst}`),
    ...(option ? [text(md`**${option.name}.** ${option.says}`)] : []),
    ...sensitive.map(({ fish }) => text(md`**${fish.name} needs care here.** ${fish.needs}`)),
    text(md`**Never:** ${plan.never}`),
    text(joined([md`**Mind**`, ...plan.cautions.map((sentence) => md`- ${sentence}`)])),
    ...(questions.length > 0
      ? [text(joined([md`**A yes to all of this?**`, ...questions.map((question) => md`- ${question}`)]))]
      : []),
    text(
      md`-# Days are counted in ${quarantine.zone}. I keep dates; I name no dose, and a fish vet decides on medicines.`,
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
export const refusedView = (plan: Plan, sensitive: readonly Suited[]): MessageView =>
  saysView(
    `${plan.name} is not for these fish`,
    joined(
      sensitive
        .filter(({ tolerance }) => tolerance !== 'caution')
        .map(
          ({ fish, tolerance }) =>
            md`- **${fish.name}**: ${tolerance === 'avoid' ? 'does not bear it.' : 'only when a fish vet directs it.'} ${fish.needs}`,
        ),
    ),
    md`Watching without medicine suits every fish: **plan: observation**. If a fish vet directed this plan, send it again with **vet: yes**.`,
  );

export const twoMedicinesView = (other: Quarantine): MessageView =>
  saysView(
    'One medicine at a time',
    md`**${other.animals}** are in a treated plan already. Two treatments at once harm fish; the worst pairs kill. If a fish vet directed both, send it again with **vet: yes**.`,
  );

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
