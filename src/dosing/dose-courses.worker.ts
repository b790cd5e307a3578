import type { Database } from 'better-sqlite3';
import type { OutboxStore } from '../outbox/outbox.store.ts';
import { directTo } from '../outbox/outbox.ts';
import { reminded } from './dose-course.ts';
import type { CourseStore } from './dose-course.store.ts';
import { reminderView } from './dose-course.view.ts';

const BATCH = 100;

/** Turns due reminders into messages: each course and its message in one transaction, so neither is without the other. */
export function coursesWorker({ db, courses, outbox }: { db: Database; courses: CourseStore; outbox: OutboxStore }) {
  return {
    remindDue(now: Date): void {
      for (const due of courses.due(now, BATCH))
        db.transaction(() => {
          const course = courses.find(due.id, due.memberId);
          const next = course && reminded(course, now);
          if (!next) return;
          courses.save(next.course);
          outbox.add({
            key: `course/${due.id}/${next.occurrence.date}`,
            guildId: due.guildId,
            topic: `course/${due.id}/reminder`,
            act: 'post',
            channelId: directTo(due.memberId),
            fallbackChannelId: due.channelId,
            memberId: due.memberId,
            targetId: null,
            title: null,
            view: reminderView(next.course, next.occurrence.date),
            mark: `1:course-done:${due.id}:${next.occurrence.date}`,
            file: null,
            // A dose reminder that is hours late is still worth having: the member decides by the water, not by the hour.
            late: 'always',
            dueAt: next.occurrence.at,
          });
        }).immediate();
    },
  };
}
