import { z } from 'zod';
import type { DoseInCourse } from '../calculators/dose-in-course.ts';
import type { WorkedAnswer } from '../calculators/worked-answer.ts';
import type { WorkedAnswerStore } from '../calculators/worked-answers.store.ts';
import { answerGoneView } from '../calculators/check.view.ts';
import { defineCommand, type AnyCommand, type ButtonAct, type FormAct } from '../discord/command.ts';
import type { Answer, FormView, MessageView, Request } from '../discord/message-view.ts';
import { knownZone, nextOccurrence, timeOfDayIn, type DailyRule } from '../schedule/local-time.ts';
import { doseGiven, doseSkipped, stopped, type DoseCourse } from './dose-course.ts';
import type { CourseStore } from './dose-course.store.ts';
import * as view from './dose-course.view.ts';

const MOST_COURSES = 5;
const DEFAULT_RULE: DailyRule = { timeOfDay: '19:00', zone: 'Etc/UTC' };
const Filled = z.object({ time: z.string().default(''), zone: z.string().default('') });

export type CourseDeps = {
  courses: CourseStore;
  answers: WorkedAnswerStore;
  /** Notes a dose in the log of the tank it went into. */
  noteDose: (course: DoseCourse, dose: DoseInCourse, now: Date) => { tankName: string } | null;
};

/** `/dose reminders`. */
export const courseCommands = ({ courses }: Pick<CourseDeps, 'courses'>): AnyCommand[] => [
  defineCommand({
    name: 'dose reminders',
    description: 'The daily doses I remind you of; stop one here',
    options: [],
    input: z.object({}),
    run: (_input, { guildId, memberId }) =>
      view.coursesView(guildId === null ? [] : courses.running(guildId, memberId, MOST_COURSES)),
  }),
];

/** The buttons of answers that are split over days, and of the reminders that follow. They work in direct messages too. */
export function courseButtons(deps: CourseDeps): ButtonAct[] {
  const onCourse = (act: string, run: (course: DoseCourse, date: string, request: Request) => Answer): ButtonAct => ({
    act,
    run: ([id, date = ''], request) => {
      const number = Number(id);
      const course = Number.isSafeInteger(number) ? deps.courses.find(number, request.memberId) : undefined;
      return course ? run(course, date, request) : view.courseGoneView();
    },
  });
  const done = (course: DoseCourse, date: string, now: Date): MessageView => {
    const result = doseGiven(course, date, now);
    if (result.kind === 'not-open') return view.notOpenView(course);
    const dose = course.doses[course.given];
    deps.courses.save(result.course);
    return view.doneView(result.course, dose ? deps.noteDose(course, dose, now) : null);
  };
  const skipped = (course: DoseCourse, date: string, now: Date): MessageView => {
    const result = doseSkipped(course, date, now);
    if (result.kind === 'not-open') return view.notOpenView(course);
    deps.courses.save(result.course);
    return view.skippedView(result.course);
  };
  return [
    {
      act: 'course-form',
      run: ([id], request) => withDoses(deps, id, request, (answer) => courseForm(deps, answer, request)),
    },
    onCourse('course-done', (course, date, { now }) => done(course, date, now)),
    onCourse('course-skip', (course, date, { now }) => skipped(course, date, now)),
    onCourse('course-stop', (course) => {
      deps.courses.save(stopped(course));
      return view.stoppedView(course);
    }),
  ];
}

export function courseForms(deps: CourseDeps): FormAct[] {
  return [
    {
      act: 'course-begin',
      run: ([id], filled, request) =>
        withDoses(deps, id, request, (answer) => {
          const { time, zone } = Filled.parse(filled);
          const timeOfDay = timeOfDayIn(time);
          if (timeOfDay === null) return view.wrongTimeView(time);
          const known = knownZone(zone);
          if (known === null) return view.wrongZoneView(zone);
          return begin(deps, answer, { timeOfDay, zone: known }, request);
        }),
    },
  ];
}

function begin({ courses }: CourseDeps, answer: WorkedAnswer, rule: DailyRule, request: Request): MessageView {
  const { guildId, channelId, memberId, now } = request;
  if (guildId === null || channelId === null) return answerGoneView();
  if (courses.running(guildId, memberId, MOST_COURSES).length >= MOST_COURSES)
    return view.tooManyCoursesView(MOST_COURSES);
  const { title, doses, tankId } = answer;
  const next = nextOccurrence(rule, now);
  return view.begunView(courses.begin({ guildId, memberId, channelId, title, doses, tankId, rule, next }, now), true);
}

/** The doses belong to whoever pours them: the owner of the tank, or the asker where it is their own. */
function withDoses(
  { answers }: CourseDeps,
  id: string | undefined,
  { guildId, memberId }: Request,
  run: (answer: WorkedAnswer) => Answer,
): Answer {
  const number = Number(id);
  const answer = guildId !== null && Number.isSafeInteger(number) ? answers.find(number, guildId) : undefined;
  if (!answer || answer.doses.length === 0) return answerGoneView();
  return (answer.forId ?? answer.askerId) === memberId ? run(answer) : view.notYourDosesView();
}

function courseForm({ courses }: CourseDeps, { id }: WorkedAnswer, { guildId, memberId }: Request): FormView {
  const { timeOfDay, zone } = (guildId === null ? undefined : courses.lastRule(guildId, memberId)) ?? DEFAULT_RULE;
  return {
    kind: 'form',
    act: 'course-begin',
    args: [String(id)],
    title: 'Remind me daily',
    fields: [
      {
        kind: 'line',
        name: 'time',
        label: 'At what time of day?',
        description: 'Well apart from other additions; such as 19:30 or 7:30 pm',
        required: true,
        mostCharacters: 12,
        value: timeOfDay,
      },
      {
        kind: 'line',
        name: 'zone',
        label: 'Your time zone',
        description: 'A region and a city near you, such as Europe/Lisbon or America/Chicago',
        required: true,
        mostCharacters: 60,
        value: zone,
      },
    ],
  };
}
