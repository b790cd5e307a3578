import { expect, test } from 'vitest';
import { render } from '../../../src/discord/render.ts';
import { measuredAs } from '../../../src/tanks/measured.ts';
import { storyOf } from '../../../src/tanks/reading-story.ts';
import { tankView } from '../../../src/tanks/tank-card.view.ts';
import type { LogEntry } from '../../../src/tanks/tank-log.ts';
import type { Tank } from '../../../src/tanks/tank.ts';
import { knowledge } from '../../set-up-club.ts';
import { aReading, aTank, daysLater } from './tanks.ts';

test('a tank of which everything was measured fits one message, and what is urgent is never left out', () => {
  const base = knowledge();
  const tank: Tank = { ...aTank({ name: 'x'.repeat(40), practicalSalinity: 30, purpose: 'quarantine' }), id: 1 };
  const stories = [...base.parameters.values()]
    .filter((parameter) => measuredAs(parameter) !== null)
    .flatMap((parameter) => {
      const middle = parameter.target?.low ?? 1;
      const entries = [0, 1, 2, 3, 4, 5].map((day): LogEntry => {
        const value = parameter.id === 'temperature' ? 39 : middle * (1 - day / 200);
        return { ...aReading(value, day, parameter.id), id: day, guildId: 'one', tankId: 1 } as LogEntry;
      });
      const rise = { by: 'rise' as const, of: { [parameter.id]: 0.01 } };
      const shared = { id: 9, guildId: 'one', tankId: 1, at: daysLater(2.5) };
      const between: LogEntry[] = [
        { ...shared, kind: 'dose', what: 'something', effect: rise, days: 2 },
        { ...shared, kind: 'water-change', share: 0.01, newWater: { [parameter.id]: middle } },
      ];
      return storyOf(base, tank, parameter.id, [...entries, ...between]) ?? [];
    });
  expect(stories.length).toBeGreaterThan(12);
  const whole = JSON.stringify(render(tankView(base, tank, stories, null)).components);
  expect(whole).toContain('Shortened to fit');
  expect(whole).toMatch(/Temperature 39.{1,40}urgent/);
  expect(whole).not.toContain('…');
  const few = JSON.stringify(render(tankView(base, tank, stories.slice(0, 2), null)).components);
  expect(few).not.toContain('Shortened to fit');
});
