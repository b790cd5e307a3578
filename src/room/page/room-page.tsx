import { useLayoutEffect, useState } from 'preact/hooks';
import type { PageAct } from '../page-shapes.ts';
import { Composer } from './composer.tsx';
import { Conversation } from './conversation.tsx';
import { ModalForm } from './modal-form.tsx';
import { Places, placeName } from './places.tsx';
import { playAct } from './room-link.ts';
import { RoomContext, type OwnAct, type RoomView } from './room-view.ts';
import { SidePanel, type SideTab } from './side-panel.tsx';
import { TopBar } from './top-bar.tsx';
import { useRoomState } from './use-room-state.ts';
import { useTheme } from './use-theme.ts';
import { useUnread } from './use-unread.ts';

/** On narrow screens one of these is shown at a time. */
type Shown = 'places' | 'talk' | 'side' | 'room';
const VIEWS: { view: Shown; label: string }[] = [
  { view: 'places', label: 'Places' },
  { view: 'talk', label: 'Conversation' },
  { view: 'side', label: 'Help' },
  { view: 'room', label: 'Room' },
];

/** The practice room. */
export function RoomPage() {
  const [acting, setActing] = useState('');
  const { state, now, line: connection, refresh } = useRoomState(acting);
  const [theme, setTheme] = useTheme();
  const [channel, setChannel] = useState('');
  const [draft, setDraft] = useState({ text: '', round: 0 });
  const [explained, setExplained] = useState<string | null>(null);
  const [tab, setTab] = useState<SideTab>('try');
  const [shown, setShown] = useState<Shown>('talk');
  const [said, setSaid] = useState('');
  // Counts the calls to the entry line; each one is answered in the very drawing that it brings about.
  const [calls, setCalls] = useState(0);
  const here = state?.channels.find(({ id }) => id === channel) ?? state?.channels[0];
  const unread = useUnread(state, here?.id ?? '');
  useLayoutEffect(() => {
    if (calls === 0) return;
    const entry = document.getElementById('entry') as HTMLInputElement | null;
    entry?.focus();
    entry?.setSelectionRange(entry.value.length, entry.value.length);
  }, [calls]);
  if (!state || !here) {
    return (
      <p class="opening">
        {connection === 'down' ? 'The practice room does not answer.' : 'Opening the practice room …'}
      </p>
    );
  }
  const me = state.members.find(({ name }) => name === state.acting);
  if (!me) return <p class="opening">There is nobody to play.</p>;

  const toEntry = () => {
    setCalls((before) => before + 1);
    setShown('talk');
  };
  const room: RoomView = {
    state,
    me,
    channel: here.id,
    commands: state.commands.filter(({ direct }) => direct || here.kind !== 'direct'),
    now,
    async play(act: OwnAct) {
      const answer = await playAct({ ...act, as: state.acting } as PageAct);
      if (act.act !== 'types') await refresh();
      return answer;
    },
    announce: setSaid,
    openChannel(id) {
      setChannel(id);
      setShown('talk');
    },
    prefill(text) {
      setDraft(({ round }) => ({ text, round: round + 1 }));
      toEntry();
    },
    explain(id) {
      setExplained(id);
      setTab('explain');
      setShown('side');
    },
  };
  const startOver = async () => {
    const { error } = await room.play({ act: 'start-over' });
    setDraft(({ round }) => ({ text: '', round: round + 1 }));
    setExplained(null);
    setSaid(error ?? 'The room starts over.');
  };
  return (
    <RoomContext.Provider value={room}>
      <a class="skip" href="#talk" onClick={toEntry}>
        Skip to the entry line
      </a>
      <TopBar
        open={shown === 'room'}
        theme={theme}
        onTheme={setTheme}
        onMember={setActing}
        onStartOver={() => void startOver()}
      />
      <p class="said" role="status">
        {connection === 'down'
          ? 'The line to the room is down. Once its program runs again, load this page anew.'
          : said}
      </p>
      <nav class="views" aria-label="Show">
        {VIEWS.map(({ view, label }) => (
          <button key={view} type="button" class="button" aria-pressed={shown === view} onClick={() => setShown(view)}>
            {label}
          </button>
        ))}
      </nav>
      <div class={`columns shows-${shown}`}>
        <Places unread={unread} />
        <main id="talk" tabIndex={-1}>
          <h2>
            {placeName(here)} <span class="small">as {me.name}</span>
          </h2>
          <Conversation
            key={`${here.id} ${state.acting}`}
            messages={state.messages.filter(({ channelId }) => channelId === here.id)}
          />
          <Composer key={`${here.id} ${draft.round}`} draft={draft.text} />
        </main>
        <SidePanel tab={tab} explained={explained} onTab={setTab} />
      </div>
      {state.modal && (
        <ModalForm key={state.modal.id} modal={state.modal} onClose={() => void room.play({ act: 'close-modal' })} />
      )}
    </RoomContext.Provider>
  );
}
