import { checkButtons, checkForms } from './calculators/check.command.ts';
import { workedAnswerStore } from './calculators/worked-answers.store.ts';
import { critterButtons, critterCommands } from './critters/critter.command.ts';
import { critterMention } from './critters/mention.ts';
import { outOfDateView } from './critters/names.view.ts';
import { clubCommands } from './club/club.command.ts';
import { unitsOfClub } from './club/club-settings.ts';
import { clubStore } from './club/club.store.ts';
import { openTemporaryDatabase, type OpenDatabase } from './database/open.ts';
import type { AnyCommand, MenuEntry, MentionAnswer } from './discord/command.ts';
import type { Answers } from './discord/dispatch.ts';
import type { Paint } from './discord/painted.ts';
import { copperCommand } from './dosing/copper.command.ts';
import { limewaterCommand } from './dosing/limewater.command.ts';
import { doseCommands } from './dosing/dose.command.ts';
import { planCommands } from './dosing/plan.command.ts';
import { createSolver, type Solver } from './dosing/solver.ts';
import type { DoseInCourse } from './calculators/dose-in-course.ts';
import type { DoseCourse } from './dosing/dose-course.ts';
import { courseButtons, courseCommands, courseForms } from './dosing/dose-course.command.ts';
import { courseStore } from './dosing/dose-course.store.ts';
import { coursesWorker } from './dosing/dose-courses.worker.ts';
import { createIdentifier, type Identifier } from './identification/identify.ts';
import { describeMention, whenHurt, sightingButtons, sightingCommands } from './identification/sighting.command.ts';
import { sightingStore } from './identification/sighting.store.ts';
import { createCoralNames } from './knowledge/coral-names.ts';
import { ballotButtons, ballotForms } from './opinions/ballot.command.ts';
import { ballotStore } from './opinions/ballot.store.ts';
import { opinionCommands, opinionMenu } from './opinions/ask.command.ts';
import { askClubButtons, askClubForms } from './opinions/ask-club.command.ts';
import { caseStore } from './opinions/case.store.ts';
import { casesWorker } from './opinions/cases.worker.ts';
import { outboxStore } from './outbox/outbox.store.ts';
import type { OutboxDeps } from './outbox/outbox.worker.ts';
import { DEFAULT_UNITS } from './tanks/tank.ts';
import { tankLogCommands } from './tanks/log.command.ts';
import { tankButtons, tankForms } from './tanks/tank-buttons.command.ts';
import { keepTanks } from './tanks/tank-keeping.store.ts';
import { tankCommands } from './tanks/tank.command.ts';
import { tankStore } from './tanks/tank.store.ts';
import { toldOf } from './upkeep/asked-chore.command.ts';
import { choreButtons, choreForms } from './upkeep/chore-buttons.command.ts';
import { choreStore } from './upkeep/chore.store.ts';
import { choresWorker } from './upkeep/chores.worker.ts';
import { memberZoneStore } from './upkeep/member-zone.store.ts';
import { upkeepCommands } from './upkeep/upkeep.command.ts';
import { quarantineButtons } from './quarantine/check.command.ts';
import { startButtons, startForms } from './quarantine/start-buttons.command.ts';
import { quarantineCommands } from './quarantine/quarantine.command.ts';
import { laterButtons, laterForms } from './quarantine/later.command.ts';
import { quarantinesWorker } from './quarantine/quarantines.worker.ts';
import { standingOf } from './quarantine/which.command.ts';
import { checkCommand } from './quarantine/checked.command.ts';
import { signButtons, signForms } from './quarantine/sign.command.ts';
import { undoEventButton } from './quarantine/undo-event.command.ts';
import { quarantineStore } from './quarantine/quarantine.store.ts';
import { curateButtons, curateCommands, curateForms } from './promises/curate.command.ts';
import { curatedStore } from './promises/curated.store.ts';
import { curatingWorker } from './promises/curating.worker.ts';
import { swapMeets } from './meets/swap-meets.worker.ts';
import { promiseCommands } from './promises/frag-promise.command.ts';
import { promiseButtons, promiseForms } from './promises/promise.command.ts';
import { promiseStore } from './promises/promise.store.ts';
import { promisesWorker } from './promises/promises.worker.ts';
import { createRingSolver, type RingSolver } from './rings/ring-solver.ts';
import { besideCommand } from './beside/beside.command.ts';
import { askedAsWant, blockedAmong, findButtons, findCommands } from './swaps/find.command.ts';
import { findStore } from './swaps/find.store.ts';
import { offerCards } from './swaps/offer-cards.worker.ts';
import { draftStore } from './swaps/draft.store.ts';
import { offerActStore } from './swaps/offer-acts.store.ts';
import { offerKeeping } from './swaps/offer-keeping.worker.ts';
import { offerStore } from './swaps/offer.store.ts';
import { offerButtons, offerCommands, offerForms } from './swaps/offers.command.ts';
import { offersDue } from './swaps/offers-due.worker.ts';
import { wantNewsStore } from './swaps/want-news.store.ts';
import { wantCommand } from './swaps/want.command.ts';
import { wantStore } from './swaps/want.store.ts';
import { createFinder, type Finder } from './knowledge/finder.ts';
import type { KnowledgeBase } from './knowledge/knowledge-base.ts';
import { waterCommands } from './water/water.command.ts';

/** Everything that the bot answers to. A new feature adds its lines here. */
export type Abilities = Answers & {
  all: readonly AnyCommand[];
  entries: readonly MenuEntry[];
  /** Turns what is due into messages that wait in the outbox. */
  fireDue: (now: Date) => void;
  outbox: Pick<OutboxDeps, 'db' | 'outbox' | 'onSettled'>;
  mention: MentionAnswer;
  /** Does the work that the first answer would otherwise wait for. */
  warmUp: () => void;
};

export type Means = {
  /** Where state is kept; without one it lives as long as the process. */
  db?: OpenDatabase['db'];
  paint?: Paint;
  /** Solves what a plan asks; by default one that starts its thread with the first question. */
  solver?: Pick<Solver, 'forOneQuestion'>;
  /** Plans rings of swaps; by default one that starts its thread with the first club. */
  ringSolver?: Pick<RingSolver, 'plan'>;
};

/** Ties the commands, buttons and the mention road to the knowledge base and the database. */
export function createAbilities(
  base: KnowledgeBase,
  {
    db = openTemporaryDatabase().db,
    paint = cannotPaint,
    solver = createSolver(),
    ringSolver = createRingSolver(),
  }: Means = {},
): Abilities {
  const { finder, identifier } = sharedOf(base);
  const sighting = { identifier, sightings: sightingStore(db), corals: createCoralNames(base) };
  const outbox = outboxStore(db);
  const cases = casesWorker({ db, cases: caseStore(db), ballots: ballotStore(db), outbox, identifier });
  const ballot = { base, finder, cases };
  const clubs = clubStore(db);
  const answers = workedAnswerStore(db);
  const tanks = tankStore(db);
  const unitsOf = (guildId: string | null) =>
    guildId === null ? DEFAULT_UNITS : unitsOfClub(clubs.of(guildId).settings);
  const dosing = { base, answers, tanks, unitsOf };
  const tanking = { base, tanks: keepTanks(db), clubs };
  const courses = courseStore(db);
  const reminders = coursesWorker({ db, courses, outbox });
  const coursing = {
    courses,
    answers,
    noteDose: ({ guildId, memberId, tankId }: DoseCourse, { words, effect }: DoseInCourse, now: Date) => {
      const tank = tankId === null ? undefined : tanking.tanks.find(guildId, tankId);
      if (!tank || tank.memberId !== memberId || !effect) return null;
      tanking.tanks.note(tank, { kind: 'dose', what: words, effect, days: 1, at: now }, now);
      return { tankName: tank.name };
    },
  };
  const upkeep = { base, chores: choreStore(db), zones: memberZoneStore(db), tanks, lastRule: courses.lastRule };
  const choresDue = choresWorker({ db, chores: upkeep.chores, outbox, told: toldOf(upkeep) });
  const quarantining = {
    base,
    store: quarantineStore(db),
    zones: upkeep.zones,
    tanks,
  };
  const quarantinesDue = quarantinesWorker({
    db,
    store: quarantining.store,
    outbox,
    standing: (quarantine, now) => standingOf(quarantining, quarantine, now),
  });
  const offers = offerStore(db);
  const promises = promiseStore(db);
  const cards = offerCards({ base, offers, outbox, promisesOf: promises.of });
  const happens = promisesWorker({ db, base, promises, offers, outbox, cards });
  const promising = { base, offers, promises, happens, quarantining };
  const kept = curatedStore(db);
  const curates = curatingWorker({ db, offers, promises, kept, happens, outbox });
  const curating = { offers, promises, corals: sighting.corals, kept, curates };
  const swapping = {
    ...{ db, base, corals: sighting.corals, clubs, offers, outbox, cards, promises, promising: happens },
    ...{ drafts: draftStore(db), acts: offerActStore(db), wants: wantStore(db), news: wantNewsStore(db) },
    zoneOf: (memberId: string) => upkeep.zones.of(memberId)?.zone ?? null,
  };
  const offering = { ...swapping, keeping: offerKeeping(swapping) };
  const finding = {
    ...{ base, offers, wants: swapping.wants, zones: upkeep.zones, listings: findStore(db, offers, base) },
    blockedWith: (guildId: string, memberId: string) => blockedAmong(promises.blocked(guildId), memberId),
    want: askedAsWant(wantCommand(offering)),
  };
  const offersTime = offersDue(swapping);
  const meeting = swapMeets({
    ...swapping,
    ...{ zones: upkeep.zones, passedOn: happens.passedOn, paint, solver: ringSolver },
  });
  const asking = { base, cases, clubs };
  const askClub = { ...asking, identifier, sightings: sighting.sightings };
  const all = [
    ...critterCommands(base, finder, whenHurt(sighting, 'member')),
    ...sightingCommands(sighting),
    ...opinionCommands(asking),
    ...clubCommands(clubs),
    ...doseCommands(dosing),
    limewaterCommand(dosing),
    copperCommand(dosing),
    ...planCommands({ ...dosing, solver }),
    ...courseCommands(coursing),
    ...tankCommands(tanking),
    ...tankLogCommands(tanking),
    ...waterCommands(dosing),
    ...upkeepCommands(upkeep),
    ...quarantineCommands(quarantining),
    checkCommand(quarantining),
    ...offerCommands(offering),
    ...findCommands(finding),
    besideCommand(finding),
    ...promiseCommands(promising),
    ...curateCommands(curating),
    ...meeting.commands,
  ];
  const buttons = [
    ...critterButtons(base),
    ...sightingButtons(sighting),
    ...askClubButtons(askClub),
    ...ballotButtons(ballot),
    ...checkButtons(answers),
    ...courseButtons(coursing),
    ...tankButtons(tanking),
    ...choreButtons(upkeep),
    ...quarantineButtons(quarantining),
    ...startButtons(quarantining),
    ...signButtons(quarantining),
    undoEventButton(quarantining),
    ...laterButtons(quarantining),
    ...offerButtons(offering),
    ...findButtons(finding),
    ...promiseButtons(promising),
    ...curateButtons(curating),
    ...meeting.buttons,
  ];
  const forms = [
    ...ballotForms(ballot),
    ...askClubForms(askClub),
    ...checkForms(answers),
    ...courseForms(coursing),
    ...tankForms(tanking),
    ...choreForms(upkeep),
    ...laterForms(quarantining),
    ...startForms(quarantining),
    ...signForms(quarantining),
    ...offerForms(offering),
    ...promiseForms(promising),
    ...curateForms(curating),
    ...meeting.forms,
  ];
  /** By the first word of its topic, the feature that hears what became of a message. */
  const settledBy: Readonly<Record<string, OutboxDeps['onSettled']>> = {
    opinion: cases.settled,
    frag: cards.settled,
    promise: happens.settled,
    'frag-meet': meeting.settled,
  };
  const onSettled: OutboxDeps['onSettled'] = (message, outcome, now) =>
    settledBy[message.topic.split('/')[0] ?? '']?.(message, outcome, now);
  const entries = opinionMenu(asking);
  return {
    all,
    entries,
    fireDue: (now) => {
      cases.closeDue(now);
      reminders.remindDue(now);
      choresDue.remindDue(now);
      quarantinesDue.remindDue(now);
      offersTime.fireDue(now);
      happens.remindDue(now);
      meeting.fireDue(now);
    },
    outbox: { db, outbox, onSettled },
    owed: ({ guildId, memberId, now }) => (guildId === null ? [] : outbox.takeOwed(guildId, memberId, now)),
    forms: new Map(forms.map((form) => [form.act, form])),
    menu: new Map(entries.map((entry) => [entry.name, entry])),
    commands: new Map(meeting.noting.commands(all).map((command) => [command.name, command])),
    buttons: new Map(meeting.noting.buttons(buttons).map((button) => [button.act, button])),
    mention: critterMention(base, finder, describeMention(sighting), whenHurt(sighting, 'everyone')),
    outOfDate: outOfDateView,
    warmUp: () => {
      finder.warmUp();
      if (base.traits) identifier.model();
    },
    paint,
  };
}

const cannotPaint: Paint = () => Promise.reject(new Error('there is no painter'));

const SHARED = new WeakMap<KnowledgeBase, { finder: Finder; identifier: Identifier }>();

/** The indexes over a knowledge base, built once: a bot that starts again in one process finds them there. */
function sharedOf(base: KnowledgeBase): { finder: Finder; identifier: Identifier } {
  const known = SHARED.get(base);
  if (known) return known;
  const finder = createFinder(base);
  const built = { finder, identifier: createIdentifier(base, finder) };
  SHARED.set(base, built);
  return built;
}
