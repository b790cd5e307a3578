import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { PageState } from '../page-shapes.ts';
import { followRoom, readState } from './room-link.ts';

/** How often the clock on the page moves by itself, in milliseconds. */
const TICK = 10_000;

/** The room as the named member sees it, kept up to date, and its clock running on between two readings. */
export function useRoomState(acting: string) {
  const [state, setState] = useState<PageState | null>(null);
  const [line, setLine] = useState<'up' | 'down'>('up');
  const [now, setNow] = useState(() => new Date());
  const ahead = useRef(0);
  const round = useRef(0);
  // A refresh that an earlier drawing began must still ask for the member who is played now.
  const wanted = useRef(acting);
  wanted.current = acting;
  const refresh = useCallback(async () => {
    const mine = (round.current += 1);
    try {
      const next = await readState(wanted.current);
      // A slow answer must not replace a newer one.
      if (mine !== round.current) return;
      ahead.current = new Date(next.now).getTime() - Date.now();
      setNow(new Date(next.now));
      setState(next);
    } catch {
      setLine('down');
    }
  }, []);
  useEffect(
    () =>
      followRoom(
        () => void refresh(),
        (up) => setLine(up ? 'up' : 'down'),
      ),
    [],
  );
  useEffect(() => void refresh(), [acting]);
  useEffect(() => {
    const timer = setInterval(() => setNow(new Date(Date.now() + ahead.current)), TICK);
    return () => clearInterval(timer);
  }, []);
  return { state, now, line, refresh };
}
