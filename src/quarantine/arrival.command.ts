import type { MessageView } from '../discord/message-view.ts';
import { adviseOn, purposeIn, type Asker } from './advice.ts';
import { beginNew } from './new-quarantine.command.ts';
import { UNKNOWN_ZONE } from './start.view.ts';
import { questionsView, refusal } from './starting.command.ts';
import { planGone, type QuarantineDeps } from './which.command.ts';

const DEFAULT_TIME = '19:00';
const MOST_NAME = 80;

/** A piece of coral that has come home from another member. */
export type Arrival = {
  guildId: string;
  /** Where it was offered; reminders go there when the keeper takes no direct messages. */
  channelId: string;
  memberId: string;
  name: string;
  /** Names of its coral and of what was seen on its mother colony: they decide which plan fits. */
  words: readonly string[];
};

/** Asks for the quarantine that fits a new piece: nothing runs before its keeper says yes to its questions. */
export function askForArrival(deps: QuarantineDeps, arrival: Arrival, now: Date): MessageView {
  const { base, zones } = deps;
  const { guildId, channelId, memberId, name, words } = arrival;
  const animals = `frag: ${name}`.slice(0, MOST_NAME);
  const asker: Asker = { animals: [animals, ...words].join(' '), fish: [], isVetLed: false };
  const corals = [...base.purposes.values()].filter((purpose) => purpose.for === 'coral');
  const said = purposeIn(base, asker);
  const purpose = said?.for === 'coral' ? said : (corals.find(({ usual }) => usual) ?? corals[0]);
  const plan = purpose && adviseOn(base, purpose, asker).first?.plan;
  if (!plan) return planGone();
  const remembered = zones.of(memberId);
  const begun = beginNew(
    deps,
    {
      ...{ guildId, channelId, memberId, animals, plan: plan.id, option: plan.options[0]?.id ?? null },
      ...{ fish: [], tank: null, copperLabel: null, helpers: [], follows: null, visibility: 'me' },
      zone: remembered?.zone ?? UNKNOWN_ZONE,
      timeOfDay: remembered?.timeOfDay ?? DEFAULT_TIME,
    },
    now,
  );
  if (begun.kind === 'trouble') return begun.view;
  return refusal(deps, begun.quarantine, plan, now) ?? questionsView(deps, begun.quarantine, plan, now);
}
