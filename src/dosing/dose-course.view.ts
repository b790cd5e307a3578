import { joined, md, mentionOf, type ButtonView, type Markdown, type MessageView } from '../discord/message-view.ts';
import { MOST_UNANSWERED, nextDose, type DoseCourse } from './dose-course.ts';

const at = (when: Date, style: 'f' | 'R' | 'F' = 'F'): Markdown => ({
  markdown: `<t:${Math.floor(when.getTime() / 1000)}:${style}>`,
});

const says = (
  tone: MessageView['tone'],
  paragraphs: readonly Markdown[],
  buttons: readonly ButtonView[] = [],
  replaces = false,
): MessageView => ({
  audience: 'member',
  tone,
  ...(replaces ? { replaces: true } : {}),
  blocks: [
    ...paragraphs.map((text) => ({ kind: 'text', text }) as const),
    ...(buttons.length > 0 ? [{ kind: 'buttons', buttons } as const] : []),
  ],
});

const stopButton = ({ id }: DoseCourse): ButtonView => ({
  label: 'Stop reminding',
  act: 'course-stop',
  args: [String(id)],
});

/** The reminder itself. It carries its date, so that an old one never counts for a new day. */
export function reminderView(course: DoseCourse, date: string): MessageView {
  const dose = nextDose(course);
  const args = [String(course.id), date];
  return says(
    'watch',
    [
      md`## Dose ${dose?.number ?? 0} of ${dose?.of ?? 0}: ${dose?.words ?? ''}`,
      md`${mentionOf(course.memberId)}, ${course.title}. Test first if you can: leave it out when the value is there already, or when animals look worse.`,
      ...(course.unanswered > 0
        ? [
            md`You have not said whether the last one went in. If it did, tell me so with that message’s **Done**; never put in two at once to catch up.`,
          ]
        : []),
      ...(course.ended === 'forgotten'
        ? [
            md`The last ${MOST_UNANSWERED} reminders had no answer, so this is the last one. Press **Done** or **Leave out today** and I go on.`,
          ]
        : []),
    ],
    [
      { label: 'Done', act: 'course-done', args, style: 'primary' },
      { label: 'Leave out today', act: 'course-skip', args },
      stopButton(course),
    ],
  );
}

export function begunView(course: DoseCourse, isDirect: boolean): MessageView {
  const { next, doses, rule } = course;
  return says(
    'calm',
    [
      md`## I will remind you`,
      md`${doses.length} doses for ${course.title}, one a day at ${rule.timeOfDay} (${rule.zone})${next ? md`, first ${at(next.at)}` : md``}.`,
      isDirect
        ? md`I write to you directly; if you take no direct messages from this server, I write here and call you.`
        : md`I write here.`,
      md`Each one counts only when you press **Done**. A day left out moves the rest on; nothing is ever doubled.`,
    ],
    [stopButton(course)],
  );
}

export function doneView(course: DoseCourse, noted: { tankName: string } | null): MessageView {
  const dose = nextDose(course);
  return says(
    'calm',
    [
      dose
        ? md`## Dose ${course.given} of ${course.doses.length} is in`
        : md`## All ${course.doses.length} doses are in`,
      dose
        ? md`Next: dose ${dose.number}, ${dose.words}${course.next ? md`, ${at(course.next.at)}` : md``}.`
        : md`${course.title}. Test tomorrow, before anything else goes in.`,
      ...(noted ? [md`-# Noted for **${noted.tankName}**; **/tank undo** takes that back.`] : []),
    ],
    dose ? [stopButton(course)] : [],
    true,
  );
}

export function skippedView(course: DoseCourse): MessageView {
  const dose = nextDose(course);
  return says(
    'plain',
    [
      md`## Left out today`,
      md`Dose ${dose?.number ?? 0} of ${dose?.of ?? 0} moves on${course.next ? md` to ${at(course.next.at)}` : md``}.`,
    ],
    [stopButton(course)],
    true,
  );
}

export const stoppedView = (course: DoseCourse): MessageView =>
  says('plain', [
    md`## Stopped`,
    md`No more reminders for ${course.title}. ${course.given} of ${course.doses.length} doses are in.`,
  ]);

/** A reminder that was answered already, or is not the last one. */
export const notOpenView = (course: DoseCourse): MessageView =>
  says('plain', [
    md`**That reminder has been answered, or a later one came.** Nothing was counted twice: ${course.given} of ${course.doses.length} doses are in.`,
  ]);

export const courseGoneView = (): MessageView =>
  says('plain', [md`**These are not your reminders, or they are long over.** **/dose reminders** shows yours.`]);

export const wrongTimeView = (text: string): MessageView =>
  says('plain', [
    md`**I could not read the time “${text.slice(0, 40)}”.** Write it like 19:30 or 7:30 pm. Press **Remind me daily** again; nothing else is lost.`,
  ]);

export const wrongZoneView = (text: string): MessageView =>
  says('plain', [
    md`**I know no time zone “${text.slice(0, 60)}”.** Write a region and a city, such as Europe/Lisbon or America/Chicago: then summer time takes care of itself. Press **Remind me daily** again; nothing else is lost.`,
  ]);

export const tooManyCoursesView = (most: number): MessageView =>
  says('plain', [md`**You have ${most} courses running.** Stop one under **/dose reminders** first.`]);

/** What a member is being reminded of. */
export function coursesView(courses: readonly DoseCourse[]): MessageView {
  if (courses.length === 0)
    return says('plain', [
      md`## No reminders`,
      md`When a dose is split over days, the answer has a button **Remind me daily**.`,
    ]);
  return says(
    'plain',
    [
      md`## Your dose reminders`,
      joined(
        courses.map(
          ({ title, given, doses, next, ended }) =>
            md`- **${title}**: ${given} of ${doses.length} in${next ? md`, next ${at(next.at, 'R')}` : md``}${ended === 'forgotten' ? md`, silent since ${MOST_UNANSWERED} reminders had no answer` : md``}`,
        ),
      ),
    ],
    courses.map((course) => ({ ...stopButton(course), label: `Stop: ${course.title}`.slice(0, 80) })),
  );
}

export const notYourDosesView = (): MessageView =>
  says('plain', [
    md`**Only whoever pours can be reminded.** This answer is for somebody else’s tank; they can press it.`,
  ]);
