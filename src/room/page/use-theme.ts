import { useEffect, useState } from 'preact/hooks';
import type { Theme } from './top-bar.tsx';

const KEY = 'practice-room-theme';

/** Light, dark, or as the system says; remembered in this browser. */
export function useTheme(): [Theme, (theme: Theme) => void] {
  const [theme, setTheme] = useState<Theme>(remembered);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
    try {
      localStorage.setItem(KEY, theme);
    } catch {
      // A browser that forbids storage simply forgets the choice.
    }
  }, [theme]);
  return [theme, setTheme];
}

function remembered(): Theme {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === 'light' || kept === 'dark' ? kept : 'system';
  } catch {
    return 'system';
  }
}
