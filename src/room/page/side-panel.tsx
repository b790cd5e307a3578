import { Explain } from './explain.tsx';
import { TryThis } from './try-this.tsx';

export type SideTab = 'try' | 'explain';
const TABS: { tab: SideTab; label: string }[] = [
  { tab: 'try', label: 'Try this' },
  { tab: 'explain', label: 'Explain' },
];

/** Beside the conversation: what to try, and what is behind a message. */
export const SidePanel = ({
  tab,
  explained,
  onTab,
}: {
  tab: SideTab;
  explained: string | null;
  onTab(tab: SideTab): void;
}) => (
  <aside aria-label="Help and insight">
    <div class="tabs" role="group" aria-label="Side panel">
      {TABS.map((one) => (
        <button
          key={one.tab}
          type="button"
          class="button"
          aria-pressed={tab === one.tab}
          onClick={() => onTab(one.tab)}
        >
          {one.label}
        </button>
      ))}
    </div>
    <h2 class="hidden">{tab === 'try' ? 'Try this' : 'Explain'}</h2>
    {tab === 'try' ? <TryThis /> : <Explain messageId={explained} />}
  </aside>
);
