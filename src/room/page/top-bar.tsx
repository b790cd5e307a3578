import { useRoom } from './room-view.ts';
import { writeTime } from './times.ts';

const HOUR = 3_600_000;
const STEPS = [
  { label: '+1 h', name: 'Move the clock 1 hour on', ms: HOUR },
  { label: '+1 day', name: 'Move the clock 1 day on', ms: 24 * HOUR },
  { label: '+7 days', name: 'Move the clock 7 days on', ms: 168 * HOUR },
];

export type Theme = 'system' | 'light' | 'dark';
type Props = {
  open: boolean;
  theme: Theme;
  onTheme(theme: Theme): void;
  onMember(name: string): void;
  onStartOver(): void;
};

/** Who acts, what time it is, and the switches of the room. */
export function TopBar({ open, theme, onTheme, onMember, onStartOver }: Props) {
  const { state, me, now, play, announce } = useRoom();
  const advance = async (ms: number, name: string) => {
    const { error } = await play({ act: 'advance', ms });
    const then = writeTime(new Date(now.getTime() + ms), 'F', me, now);
    announce(error ?? `${name.replace('Move the clock', 'The clock moved')}. It is now ${then}.`);
  };
  return (
    <header class={`top ${open ? 'open' : ''}`}>
      <h1>
        {state.club} <span class="banner">Practice room: nothing leaves this computer.</span>
      </h1>
      <div class="switches">
        <label>
          Acting as
          <select value={state.acting} onChange={(event) => onMember(event.currentTarget.value)}>
            {state.members
              .filter(({ bot }) => !bot)
              .map((member) => (
                <option key={member.id} value={member.name}>
                  {member.name}
                  {describe(member.roles, member.dmClosed)}
                </option>
              ))}
          </select>
        </label>
        <div class="clock" role="group" aria-label="Room clock">
          <span>
            Room time{' '}
            <time dateTime={now.toISOString()} title={`${writeTime(now, 'F', me, now)}, ${me.zone}`}>
              {writeTime(now, 's', me, now)}
            </time>{' '}
            <span class="small">{me.zone}</span>
          </span>
          {STEPS.map(({ label, name, ms }) => (
            <button
              key={label}
              type="button"
              class="button"
              aria-label={`${label}: ${name}`}
              onClick={() => void advance(ms, name)}
            >
              {label}
            </button>
          ))}
        </div>
        <label>
          Theme
          <select value={theme} onChange={(event) => onTheme(event.currentTarget.value as Theme)}>
            <option value="system">as system</option>
            <option value="light">light</option>
            <option value="dark">dark</option>
          </select>
        </label>
        <button type="button" class="button" onClick={onStartOver}>
          Start over
        </button>
      </div>
    </header>
  );
}

/** What a person should know of a member before playing them. */
function describe(roles: string[], dmClosed: boolean): string {
  const words = [...roles, ...(dmClosed ? ['direct messages closed'] : [])];
  return words.length > 0 ? ` (${words.join(', ')})` : '';
}
