import type { ButtonAct } from '../discord/command.ts';
import { md, type Block, type MessageView } from '../discord/message-view.ts';
import type { Sign } from '../knowledge/sign.ts';
import { onQuarantine } from './on-quarantine.command.ts';
import type { Quarantine } from './quarantine.ts';
import { mostUrgent } from './signs.ts';
import { saysView } from './start.view.ts';
import type { QuarantineDeps } from './which.command.ts';

const MOST_SIGNS = 25;

/** The buttons by which a keeper tells what is off. */
export function signButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base, store } = deps;
  return [
    onQuarantine(deps, 'quarantine-off', (quarantine) =>
      signsView(quarantine, [...base.signs.values()], base.plans.get(quarantine.plan)?.for),
    ),
    onQuarantine(deps, 'quarantine-sign', (quarantine, _args, request, [id = '']) => {
      const sign = base.signs.get(id);
      if (!sign) return saysView('I don’t know that sign', md`Its entry is gone. Choose again.`);
      const says = mostUrgent(sign, new Set());
      const fit = says.kind === 'fit' ? says.fit : sign.fits[0];
      // One row that may be catching is enough: the most urgent one need not be it.
      const mayCatch = sign.fits.some(({ restarts }) => restarts);
      const onCorals = PEST_PLANS.has(base.plans.get(quarantine.plan)?.for ?? 'fish');
      const effect = mayCatch ? (onCorals ? 'pest' : 'infectious') : 'weak';
      store.note(
        quarantine,
        { kind: 'sign-seen', at: request.now, sign: id, effect, urgency: fit?.urgency ?? 'watch' },
        request.memberId,
        request.now,
      );
      return signView(sign);
    }),
  ];
}

/** Where what is catching is an animal on the coral, and holds go by that. */
const PEST_PLANS: ReadonlySet<string> = new Set(['coral', 'invertebrate', 'macroalgae']);

const GROUP_OF = {
  fish: 'fish',
  coral: 'coral',
  invertebrate: 'invertebrate',
  macroalgae: 'coral',
  display: 'fish',
} as const;

/** What may be off, the most urgent first. */
function signsView({ id }: Quarantine, signs: readonly Sign[], plansFor: keyof typeof GROUP_OF = 'fish'): MessageView {
  const order = ['emergency', 'urgent', 'soon', 'watch'];
  const rank = ({ fits }: Sign) => Math.min(...fits.map(({ urgency }) => order.indexOf(urgency)));
  const offered = signs
    .filter(({ group }) => group === GROUP_OF[plansFor])
    .sort((one, other) => rank(one) - rank(other))
    .slice(0, MOST_SIGNS);
  return {
    audience: 'member',
    tone: 'watch',
    blocks: [
      { kind: 'text', text: md`## What is off?` },
      { kind: 'text', text: md`Gasping, rolling or lying fish: air and clean matched water now, then a fish vet.` },
      {
        kind: 'select',
        act: 'quarantine-sign',
        args: [String(id)],
        placeholder: 'What do you see?',
        options: offered.map((sign) => ({ label: sign.name, value: sign.id })),
      },
    ],
  };
}

/** What a sign may fit, the most urgent first, and what to do first. Never a diagnosis. */
function signView({ name, fits, checkFirst }: Sign): MessageView {
  const order = ['emergency', 'urgent', 'soon', 'watch'];
  const sorted = [...fits].sort((one, other) => order.indexOf(one.urgency) - order.indexOf(other.urgency));
  return {
    audience: 'member',
    tone: sorted[0]?.urgency === 'emergency' ? 'urgent' : 'watch',
    blocks: [
      { kind: 'text', text: md`## ${name}` },
      ...(checkFirst ? [{ kind: 'text', text: md`**First:** ${checkFirst}` } satisfies Block] : []),
      ...sorted.map(({ condition, tell, first, vet, urgency }, at): Block => ({
        kind: 'text',
        text: md`**May fit ${condition}** (${urgency}). ${tell} **Do first:** ${first}${vet ? md` **Fish vet:** ${vet}.` : md``}`,
        fold: at,
      })),
      {
        kind: 'text',
        text: md`-# Noted. I name no illness: photos and a fish vet do. **/quarantine today** shows how the dates stand now.`,
      },
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}
