import type { ButtonAct } from '../discord/command.ts';
import { md, type Answer, type Block, type MessageView, type Request } from '../discord/message-view.ts';
import type { Sign } from '../knowledge/sign.ts';
import { planGone, standingOf, type QuarantineDeps, type Standing } from './which.command.ts';
import type { Quarantine } from './quarantine.ts';
import { saysView } from './start.view.ts';
import { mostUrgent } from './signs.ts';
import { planView, todayView } from './state.view.ts';

const MOST_SIGNS = 25;

/** The buttons of a quarantine: only its keeper may press them, and each looks up anew how it stands. */
export function quarantineButtons(deps: QuarantineDeps): ButtonAct[] {
  const { base, store } = deps;
  const onQuarantine = (
    act: string,
    run: (quarantine: Quarantine, args: readonly string[], request: Request, chosen: readonly string[]) => Answer,
  ): ButtonAct => ({
    act,
    run: ([id = '', ...args], request, chosen = []) => {
      const found = request.guildId === null ? undefined : store.find(Number(id), request.guildId);
      if (!found || found.memberId !== request.memberId)
        return saysView('Not yours', md`Only whoever keeps these animals can press that.`);
      return found.ended
        ? saysView('It is closed', md`This quarantine is off the list.`)
        : run(found, args, request, chosen);
    },
  });
  const today = (quarantine: Quarantine, { now }: Request): Answer => {
    const standing = standingOf(deps, quarantine, now);
    return standing ? { ...todayView(quarantine, standing.plan, standing.state, now), replaces: true } : planGone();
  };
  const started = (quarantine: Quarantine, now: Date): Standing | null => {
    const standing = standingOf(deps, quarantine, now);
    return standing?.state.startedAt ? standing : null;
  };
  return [
    onQuarantine('quarantine-start', (quarantine, _args, request) => {
      if (!started(quarantine, request.now)) {
        const option = quarantine.option === null ? {} : { option: quarantine.option };
        store.note(quarantine, { kind: 'started', at: request.now, ...option }, request.memberId, request.now);
      }
      return today(quarantine, request);
    }),
    onQuarantine('quarantine-drop', (quarantine, _args, { now }) => {
      if (started(quarantine, now)) return saysView('It runs already', md`**/quarantine finish** closes it.`);
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView('Not started', md`Nothing was begun. Come back when every answer is a yes.`),
        replaces: true,
      };
    }),
    onQuarantine('quarantine-call-off', (quarantine, _args, { now }) => {
      store.save({ ...quarantine, ended: { how: 'called-off', at: now } });
      return {
        ...saysView(`${quarantine.animals}: called off`, md`It is off the list. What was noted is kept.`),
        replaces: true,
      };
    }),
    onQuarantine('quarantine-well', (quarantine, _args, request) => {
      store.note(
        quarantine,
        { kind: 'check-in', at: request.now, signs: [], appetite: 'normal' },
        request.memberId,
        request.now,
      );
      return today(quarantine, request);
    }),
    onQuarantine('quarantine-off', (quarantine) =>
      signsView(quarantine, [...base.signs.values()], base.plans.get(quarantine.plan)?.for),
    ),
    onQuarantine('quarantine-sign', (quarantine, _args, request, [id = '']) => {
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
    onQuarantine('quarantine-step', (quarantine, [step = ''], request) => {
      store.note(quarantine, { kind: 'step-done', at: request.now, step }, request.memberId, request.now);
      return today(quarantine, request);
    }),
    onQuarantine('quarantine-plan', (quarantine, _args, { now }) => {
      const standing = standingOf(deps, quarantine, now);
      return standing ? planView(base, quarantine, standing.plan, standing.state, now) : planGone();
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
