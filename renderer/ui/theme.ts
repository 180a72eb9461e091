/** Dark, light, or as the system has it. Kept on this machine, not in the shop's file. */
export const THEMES = ['system', 'dark', 'light'] as const;
type Theme = (typeof THEMES)[number];

const KEY = 'rakelight.theme';
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

/** Puts the theme on the page, and follows the system's and what another window chooses. Once, at the start. */
export function followTheme(): void {
  apply();
  systemLight.addEventListener('change', apply);
  window.addEventListener('storage', apply);
}

export function setTheme(theme: Theme): void {
  localStorage.setItem(KEY, theme);
  apply();
}
