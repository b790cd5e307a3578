import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { knownZone } from '../schedule/local-time.ts';
import { choices, named, type Named } from './named-entry.ts';
import { MOST_QUARANTINES } from './quarantine.ts';
import { beforeStartView, refusedView, saysView, twoMedicinesView } from './start.view.ts';
import { isRefused, notSimplyBorne } from './suits.ts';
import { needsAClub, type QuarantineDeps } from './which.command.ts';

const DEFAULT_ZONE = 'Etc/UTC';
const MOST_NAMED = 25;

/** `/quarantine start`: what the plan is for, whom it does not suit, and the questions that all need a yes. */
export function startCommand(deps: QuarantineDeps): AnyCommand {
  const { base, store } = deps;
  return defineCommand({
    name: 'quarantine start',
    description: 'New animals wait before they join: the plan, its dates and its questions',
    options: [
      { name: 'animals', description: 'Who waits, in your words: "two clownfish"', required: true, mostCharacters: 80 },
      { name: 'plan', description: 'How; when in doubt: observation', required: true, autocomplete: true },
      { name: 'fish', description: 'The kind of fish, so that I can warn', required: false, autocomplete: true },
      { name: 'option', description: 'A way of doing it that the plan offers', required: false, autocomplete: true },
      { name: 'seen-by', description: 'Who may see it', required: false, choices: ['me', 'club'] },
      { name: 'zone', description: 'Your time zone, such as Europe/Lisbon', required: false, mostCharacters: 60 },
      { name: 'vet', description: 'Yes, if a fish vet directed this', required: false, choices: ['yes'] },
    ],
    input: z.object({
      animals: z.string().trim().min(1).max(80),
      plan: z.string().max(100),
      fish: z.string().max(100).optional(),
      option: z.string().max(100).optional(),
      'seen-by': z.enum(['me', 'club']).default('me'),
      zone: z.string().max(60).optional(),
      vet: z.literal('yes').optional(),
    }),
    run: (given, { guildId, channelId, memberId, now }) => {
      if (guildId === null || channelId === null) return needsAClub();
      const plan = named(base.plans.values(), given.plan);
      if (!plan) return unknown('plan', given.plan, [...base.plans.values()]);
      const fish = given.fish === undefined ? undefined : named(base.fish.values(), given.fish);
      if (given.fish !== undefined && !fish) return unknown('kind of fish', given.fish, [...base.fish.values()]);
      const option = given.option === undefined ? plan.options[0] : named(plan.options, given.option);
      if (given.option !== undefined && !option) return unknown('option', given.option, plan.options);
      const zone = given.zone === undefined ? (deps.zones.of(memberId)?.zone ?? DEFAULT_ZONE) : knownZone(given.zone);
      if (zone === null)
        return saysView(
          'I know no such time zone',
          md`I read “${given.zone ?? ''}”. Write a region and a city, such as Europe/Lisbon or America/Chicago.`,
        );
      const own = store.own(guildId, memberId);
      if (own.length >= MOST_QUARANTINES)
        return saysView('That is a lot of tanks', md`You have ${MOST_QUARANTINES} running. Finish one first.`);
      const sensitive = notSimplyBorne(plan, fish ? [fish] : []);
      if (isRefused(sensitive) && !given.vet) return refusedView(plan, sensitive);
      const treated = own.find((each) => base.plans.get(each.plan)?.medicated);
      if (plan.medicated && treated && !given.vet) return twoMedicinesView(treated);
      const quarantine = store.begin(
        {
          guildId,
          memberId,
          channelId,
          animals: given.animals,
          fish: fish ? [fish.id] : [],
          plan: plan.id,
          option: option?.id ?? null,
          tank: null,
          copperLabel: null,
          helpers: [],
          zone,
          timeOfDay: '19:00',
          follows: null,
          visibility: given['seen-by'],
          begunAt: now,
        },
        { kind: 'note', at: now, text: 'asked for' },
      );
      return beforeStartView(quarantine, plan, sensitive);
    },
    suggest: (option, typed, _request, so = {}) => {
      if (option === 'plan') return choices(base.plans.values(), typed);
      if (option === 'fish') return choices(base.fish.values(), typed);
      const plan = typeof so['plan'] === 'string' ? named(base.plans.values(), so['plan']) : undefined;
      return option === 'option' ? choices(plan?.options ?? [], typed) : [];
    },
  });
}

const unknown = (what: string, typed: string, entries: readonly Named[]) =>
  saysView(
    `I don’t know that ${what}`,
    md`I read “${typed.slice(0, 40)}”. There are: ${entries
      .slice(0, MOST_NAMED)
      .map(({ name }) => name)
      .join(', ')}${entries.length > MOST_NAMED ? ', and more; type part of a name' : ''}.`,
  );
