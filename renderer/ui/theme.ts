import { useSyncExternalStore } from 'react';

/** Dark, light, or as the system has it. Kept on this machine, not in the shop's file. */
export const THEMES = ['system', 'dark', 'light'] as const;
export type Theme = (typeof THEMES)[number];

const KEY = 'rakelight.theme';
const listeners = new Set<() => void>();
const systemLight = window.matchMedia('(prefers-color-scheme: light)');

function chosen(): Theme {
  const kept = localStorage.getItem(KEY);
  return THEMES.find((theme) => theme === kept) ?? 'system';
}

function apply(): void {
  const theme = chosen();
  const light = theme === 'light' || (theme === 'system' && systemLight.matches);
  document.documentElement.dataset['theme'] = light ? 'light' : 'dark';
}

/** Puts the theme on the page and follows the system's. Once, at the start. */
export function followTheme(): void {
  apply();
  systemLight.addEventListener('change', apply);
}

export function setTheme(theme: Theme): void {
  localStorage.setItem(KEY, theme);
  apply();
  for (const tell of listeners) tell();
}

export function useTheme(): Theme {
  return useSyncExternalStore((tell) => {
    listeners.add(tell);
    return () => listeners.delete(tell);
  }, chosen);
}
