import type { Database } from 'better-sqlite3';
import type { AnyCommand, ButtonAct, FormAct } from '../discord/command.ts';
import type { Paint } from '../discord/painted.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import type { PromiseStore } from '../promises/promise.store.ts';
import type { MemberZoneStore } from '../upkeep/member-zone.store.ts';
import type { OfferStore } from '../swaps/offer.store.ts';
import type { WantStore } from '../swaps/want.store.ts';
import { meetButtons, meetCommands, meetForms } from './meet.command.ts';
import { meetStore } from './meet.store.ts';
import { meetsWorker } from './meets.worker.ts';
import { memberNameStore } from './member-names.store.ts';
import { notingNames, notingPresses } from './noting.command.ts';
import { ringJobStore } from './ring-jobs.store.ts';
import { ringPlanner } from './ring-planner.worker.ts';
import { ringStore } from './ring.store.ts';
import { ringsButtons, ringsCommands } from './rings.command.ts';
import { ringsWorker, type RingsDeps } from './rings.worker.ts';

export type SwapMeetsDeps = {
  db: Database;
  base: KnowledgeBase;
  offers: OfferStore;
  wants: WantStore;
  promises: PromiseStore;
  outbox: OutboxStore;
  zones: MemberZoneStore;
  solver: RingsDeps['solver'];
  cards: { refresh: RingsDeps['refreshCard'] };
  passedOn: RingsDeps['passedOn'];
  paint: Paint;
};

/** Rings and meets of swaps, tied together. */
export function swapMeets({ cards, zones, paint, ...deps }: SwapMeetsDeps) {
  const { db } = deps;
  const [jobs, meets, names] = [ringJobStore(db), meetStore(db), memberNameStore(db)];
  const zoneOf = (memberId: string) => zones.of(memberId)?.zone ?? null;
  const rings = ringsWorker({ ...deps, zoneOf, rings: ringStore(db), jobs, meets, refreshCard: cards.refresh });
  const meeting = meetsWorker({ ...deps, zoneOf, meets, jobs, rings, names, paint });
  const planner = ringPlanner({ db, jobs, meets, rings, others: { list: meeting.list } });
  const forRings = { rings, planner, names };
  const forMeets = { meets: meeting, names, zones };
  const commands: AnyCommand[] = [...ringsCommands(forRings), ...meetCommands(forMeets)];
  const buttons: ButtonAct[] = [...ringsButtons(forRings), ...meetButtons(forMeets)];
  const forms: FormAct[] = meetForms(forMeets);
  return {
    commands,
    buttons,
    forms,
    settled: meeting.settled,
    /** Whoever uses a command or a button of frags is remembered by name. */
    noting: {
      commands: (all: readonly AnyCommand[]) => notingNames(names, all),
      buttons: (all: readonly ButtonAct[]) => notingPresses(names, all),
    },
    fireDue(now: Date): void {
      rings.keepUp(now);
      meeting.remindDue(now);
      planner.planDue(now);
    },
  };
}
