import { z } from 'zod';
import { isOfficer } from '../club/officer.ts';
import { defineCommand, type AnyCommand, type ButtonAct } from '../discord/command.ts';
import { md, type Answer, type MessageView, type Request } from '../discord/message-view.ts';
import { isCurator } from '../opinions/curator.ts';
import type { MemberNameStore } from './member-names.store.ts';
import { ringPicture } from './ring-picture.ts';
import type { RingPlanner } from './ring-planner.worker.ts';
import { isIn } from './ring.ts';
import { saysView } from './ring.view.ts';
import { proposedView, ringsView } from './rings.view.ts';
import type { Rings } from './rings.worker.ts';

export type RingsCommandDeps = { rings: Rings; planner: RingPlanner; names: MemberNameStore };

const DO = ['Propose these', 'Yes to my ring', 'No to my ring'] as const;
const onlyInClub = () => saysView('Only in the club', md`Rings are made among the members of a club. Ask me there.`);

export const mayRun = (request: Request): boolean => isOfficer(request) || isCurator(request);

/** `/frag rings`: planning is done in a thread, so the answer says that it is at work. */
export function ringsCommands(deps: RingsCommandDeps): AnyCommand[] {
  return [
    defineCommand({
      name: 'frag rings',
      description: 'Rings of swaps: who could give whom what, all at once, and those with you',
      options: [
        {
          name: 'do',
          description: 'Answer your ring, or put the rings to their members',
          required: false,
          choices: DO,
        },
      ],
      input: z.object({ do: z.enum(DO).optional() }),
      run: (given, request) => {
        if (given.do === 'Propose these') return proposeThese(deps, request);
        if (given.do === undefined) return showRings(deps, request);
        return answerOwn(deps, given.do === 'Yes to my ring' ? 'yes' : 'no', request);
      },
    }),
  ];
}

export function ringsButtons(deps: RingsCommandDeps): ButtonAct[] {
  const answers = (act: string, said: 'yes' | 'no'): ButtonAct => ({
    act,
    run: ([guildId = '', ringId = ''], request) => {
      if (request.guildId !== null && request.guildId !== guildId) return onlyInClub();
      return answerRing(deps, guildId, Number(ringId), said, request);
    },
  });
  return [
    answers('frag-ring-yes', 'yes'),
    answers('frag-ring-no', 'no'),
    { act: 'frag-rings-propose', run: (_args, request) => proposeThese(deps, request) },
  ];
}

function showRings({ rings, names }: RingsCommandDeps, request: Request): Answer {
  const { guildId, memberId, now } = request;
  if (guildId === null) return onlyInClub();
  const work = async (): Promise<MessageView> => {
    const planned = await rings.plan(guildId, now);
    const called = names.of(guildId);
    return ringsView({
      planned,
      open: rings.open(guildId),
      memberId,
      mayPropose: mayRun(request),
      pictureOf: (arcs, name) => ringPicture(arcs, memberId, called, name),
    });
  };
  return { kind: 'work', audience: 'member', work };
}

function proposeThese({ planner }: RingsCommandDeps, request: Request): Answer {
  const { guildId, now } = request;
  if (guildId === null) return onlyInClub();
  if (!mayRun(request))
    return saysView(
      'An officer or curator does that',
      md`Putting rings to their members asks many people at once. I also do it by myself every night at 03:00 UTC.`,
    );
  const work = async (): Promise<MessageView> => {
    const { planned, proposed } = await planner.proposeNow(guildId, now);
    return proposedView(proposed, planned);
  };
  return { kind: 'work', audience: 'member', work };
}

/** The ring of whoever asks that waits for an answer, the oldest first. */
function answerOwn(deps: RingsCommandDeps, said: 'yes' | 'no', request: Request): Answer {
  const { guildId, memberId } = request;
  if (guildId === null) return onlyInClub();
  const ring = deps.rings.openWith(guildId, memberId).find(({ state }) => state === 'proposed');
  if (!ring) return saysView('No ring waits for you', md`I ask you by direct message when there is one.`);
  return answerRing(deps, guildId, ring.id, said, request);
}

function answerRing(
  deps: RingsCommandDeps,
  guildId: string,
  ringId: number,
  said: 'yes' | 'no',
  request: Request,
): Answer {
  const { rings, planner } = deps;
  const { memberId, now } = request;
  const result = rings.answer(guildId, ringId, memberId, said, now);
  const there = request.guildId === null;
  switch (result.kind) {
    case 'waits':
      return { ...rings.askView(result.ring, memberId), audience: 'member', ...(there ? { replaces: true } : {}) };
    case 'agreed':
      return { ...rings.askView(result.ring, memberId), audience: 'member', ...(there ? { replaces: true } : {}) };
    case 'dissolved': {
      // The next best plan is put to its members before this answer says so.
      const work = async (): Promise<MessageView> => {
        planner.startAll(now);
        await planner.settled();
        return declinedView(rings.openWith(guildId, memberId).some(({ state }) => state === 'proposed'));
      };
      return { kind: 'work', audience: 'member', work };
    }
    case 'same':
      return saysView('Noted already', md`You said ${said} to this one before. **/frag rings** shows how it stands.`);
    case 'too-late':
      return saysView(
        'Its time is over',
        md`This one could not be answered any longer. If another ring can be closed, I ask you.`,
      );
    case 'not-in-it':
      return saysView('Not your ring', md`Only those who are in a ring answer for it.`);
    case 'closed': {
      planner.startAll(now);
      return closedView(rings, guildId, ringId, memberId);
    }
  }
}

function declinedView(isAskedAgain: boolean): MessageView {
  return saysView(
    'Noted: no',
    isAskedAgain
      ? md`That one is off and your piece is free again. **There is another ring with you:** it comes as a message of its own.`
      : md`That one is off and your piece is free again. The others hear that it is off, not who said no. These two pieces are not put to you again for 30 days.`,
  );
}

function closedView(rings: Rings, guildId: string, ringId: number, memberId: string): MessageView {
  const ring = rings.find(ringId, guildId);
  if (ring && isIn(ring, memberId) && (ring.state === 'agreed' || ring.state === 'done'))
    return saysView(
      'All have said yes',
      md`This ring is agreed. If something has come between, **/frag promises** lets you release your piece; the other is told.`,
    );
  return saysView(
    'It is off',
    md`This ring did not come about, and no piece of yours is held for it. If another can be closed, I ask you.`,
  );
}
