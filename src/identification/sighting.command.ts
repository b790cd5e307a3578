import { z } from 'zod';
import { adviceOf } from '../critters/advice.ts';
import { outOfDateView } from '../critters/names.view.ts';
import { defineCommand, type AnyCommand, type ButtonAct, type MentionAnswer } from '../discord/command.ts';
import type { MessageView, Request } from '../discord/message-view.ts';
import type { CoralNames } from '../knowledge/coral-names.ts';
import { describedFrom } from './described.ts';
import type { Evidence } from './evidence.ts';
import type { Identifier } from './identify.ts';
import { questionView, whatIsLeftView } from './key.view.ts';
import { pictureFor } from './option-pictures.ts';
import type { ReadDescription } from './read-description.ts';
import { askedIn, evidenceOf, NOTHING_DESCRIBED, type Answer, type Sighting } from './session.ts';
import { notYoursView, sightingView, type SightingOccasion } from './sighting.view.ts';
import type { SightingStore } from './sighting.store.ts';

export type SightingDeps = {
  identifier: Identifier;
  sightings: SightingStore;
  corals: CoralNames;
};

const SINCE = ['new rock', 'new coral', 'always here'] as const;
/** A description of fewer usable words than this gets questions at once. */
const ENOUGH_WORDS = 2;
const MOST_QUESTIONS = 8;

/** `/critter describe` and `/critter key`. */
export function sightingCommands(deps: SightingDeps): AnyCommand[] {
  const { corals } = deps;
  return [
    defineCommand({
      name: 'critter describe',
      description: 'You do not know its name? Say what you see, in your own words',
      options: [
        {
          name: 'text',
          description: 'Shape, colour, size, where, when, what it does',
          required: true,
          mostCharacters: 600,
        },
        {
          name: 'near',
          description: 'The coral it sits on or beside',
          required: false,
          autocomplete: true,
          mostCharacters: 100,
        },
        { name: 'since', description: 'What came in before it was seen', required: false, choices: SINCE },
      ],
      input: z.object({
        text: z.string().max(600),
        near: z.string().max(100).optional(),
        since: z.enum(SINCE).optional(),
      }),
      run: ({ text, near, since }, request) =>
        describe(deps, text, { near: near === undefined ? undefined : corals.idOf(near), since }, request, 'member'),
      suggest: (option, typed) => (option === 'near' ? corals.suggest(typed) : []),
    }),
    defineCommand({
      name: 'critter key',
      description: 'A few questions with buttons, from what you see to what to do',
      options: [],
      input: z.object({}),
      run: (_input, request) => {
        const sighting = deps.sightings.begin(
          { ...owner(request), text: '', described: NOTHING_DESCRIBED },
          request.now,
        );
        return step(deps, sighting, { audience: 'member' });
      },
    }),
  ];
}

/** A description read, kept, and answered. */
export function describe(
  deps: SightingDeps,
  text: string,
  context: { near?: string | undefined; since?: Evidence['context']['since'] | undefined },
  request: Request,
  audience: MessageView['audience'],
): MessageView {
  const { identifier, sightings, corals } = deps;
  const read = identifier.read(text);
  const described = describedFrom(read, { near: context.near ?? corals.inText(text), since: context.since });
  const sighting = sightings.begin({ ...owner(request), text: text.slice(0, 600), described }, request.now);
  return result(deps, sighting, { audience, read });
}

const usableWords = (read: ReadDescription): number => read.understood.length;

/** A mention of fewer usable words than this is a name or a greeting, and no description. */
const ENOUGH_FOR_A_MENTION = 3;

/** Answers a text that says that somebody is hurt or ill, however short: help first. Null when it does not. */
export function whenHurt(deps: SightingDeps, audience: MessageView['audience']): MentionAnswer {
  return (text, request) =>
    deps.identifier.read(text).evidence.hurt.length > 0 ? describe(deps, text, {}, request, audience) : null;
}

/** Answers a mention that describes something; null when it does not say enough. */
export function describeMention(deps: SightingDeps): MentionAnswer {
  return (text, request) =>
    usableWords(deps.identifier.read(text)) >= ENOUGH_FOR_A_MENTION
      ? describe(deps, text, {}, request, 'everyone')
      : null;
}

/** The buttons of a sighting. Only its owner may press; a press on an older step changes nothing. */
export function sightingButtons(deps: SightingDeps): ButtonAct[] {
  const own = (
    act: string,
    run: (sighting: Sighting, args: readonly string[], request: Request) => MessageView,
  ): ButtonAct => ({
    act,
    run: ([id = '', ...args], request) => {
      const sighting = deps.sightings.find(Number(id), request.guildId);
      if (!sighting) return outOfDateView();
      if (sighting.memberId !== request.memberId) return notYoursView();
      return run(sighting, args, request);
    },
  });
  const answered = (sighting: Sighting, answer: Answer, now: Date): Sighting => {
    const answers = [...sighting.answers, answer];
    deps.sightings.answered(sighting.id, answers, now);
    return { ...sighting, answers };
  };
  const isCurrent = (sighting: Sighting, at = '') => at === String(sighting.answers.length);
  const edited = { audience: 'member', replaces: true } as const;

  return [
    own('key', (sighting) => step(deps, sighting, edited)),
    own('answer', (sighting, [at, option = 'skip'], { now }) => {
      if (!isCurrent(sighting, at)) return step(deps, sighting, edited);
      const identified = identify(deps, sighting);
      const question = deps.identifier.question(identified, askedIn(sighting));
      if (!question) return result(deps, sighting, edited);
      const chosen = option === 'skip' ? 'skip' : question.options[Number(option)]?.id;
      return chosen === undefined
        ? outOfDateView()
        : step(deps, answered(sighting, { question: question.id, option: chosen }, now), edited);
    }),
    own('look', (sighting, [at, pair = '', feature = '', looksLike = 'skip'], { now }) =>
      isCurrent(sighting, at)
        ? step(
            deps,
            answered(sighting, { question: `pair/${pair}/${feature}`, option: sideId(deps, pair, looksLike) }, now),
            edited,
          )
        : step(deps, sighting, edited),
    ),
    own('back', (sighting, [at], { now }) => {
      if (!isCurrent(sighting, at)) return step(deps, sighting, edited);
      const answers = sighting.answers.slice(0, -1);
      deps.sightings.answered(sighting.id, answers, now);
      return step(deps, { ...sighting, answers }, edited);
    }),
    own('over', (sighting, _args, { now }) => {
      deps.sightings.answered(sighting.id, [], now);
      return step(deps, { ...sighting, answers: [] }, edited);
    }),
    own('left', (sighting) => {
      const identified = identify(deps, sighting);
      const model = deps.identifier.model();
      const left = model.critters
        .map((critter, index) => ({
          name: critter.name,
          advice: adviceOf(critter),
          probability: identified.posterior.probabilities[index] ?? 0,
        }))
        .filter(({ probability }) => probability >= 0.005)
        .sort((one, other) => other.probability - one.probability);
      return whatIsLeftView(sighting, identified, left);
    }),
    own('result', (sighting) => result(deps, sighting, edited)),
  ];
}

/** The entry on a side of a pair; anything else is "can't see". */
function sideId({ identifier }: SightingDeps, pair: string, side: string): string {
  const found = identifier.base.lookAlikes.get(pair);
  return found && (side === 'a' || side === 'b') ? found[side] : 'skip';
}

/** The next question, or the result when none would change what to do. */
function step(deps: SightingDeps, sighting: Sighting, occasion: SightingOccasion): MessageView {
  const identified = identify(deps, sighting);
  const asked = askedIn(sighting);
  const question = asked.size >= MOST_QUESTIONS ? null : deps.identifier.question(identified, asked);
  if (!question) return result(deps, sighting, occasion);
  const picture = pictureFor(question);
  return questionView(sighting, question, identified, {
    audience: occasion.audience,
    ...(occasion.replaces ? { replaces: true } : {}),
    ...(picture ? { picture } : {}),
  });
}

function result(deps: SightingDeps, sighting: Sighting, occasion: SightingOccasion): MessageView {
  const { base } = deps.identifier;
  const identified = identify(deps, sighting);
  const tooLittle =
    occasion.read !== undefined && usableWords(occasion.read) < ENOUGH_WORDS && !identified.evidence.alarm;
  if (tooLittle) return step(deps, sighting, { audience: occasion.audience });
  const canAsk =
    sighting.answers.length < MOST_QUESTIONS && deps.identifier.question(identified, askedIn(sighting)) !== null;
  return sightingView(base, deps.identifier.model().vocabulary, sighting, identified, { ...occasion, canAsk });
}

const identify = ({ identifier }: SightingDeps, sighting: Sighting) =>
  identifier.identify(evidenceOf(identifier.model(), identifier.base, sighting));

const owner = ({ memberId, guildId }: Request) => ({ memberId, guildId });
