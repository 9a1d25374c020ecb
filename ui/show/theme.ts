import type { Kept } from '../link/person.ts';

export type ThemeChoice = 'system' | 'day' | 'night';
export const THEME_CHOICES: readonly ThemeChoice[] = ['system', 'day', 'night'];
const THEME_KEY = 'heelwright-theme';

export function keptTheme(kept: Kept): ThemeChoice {
  const said = kept.getItem(THEME_KEY);
  return THEME_CHOICES.find((choice) => choice === said) ?? 'system';
}

export function keepTheme(choice: ThemeChoice, kept: Kept): void {
  kept.setItem(THEME_KEY, choice);
}

/** `system` follows the machine; the other two stay whatever the machine does. */
export function themeOf(choice: ThemeChoice, systemIsDark: boolean): 'light' | 'dark' {
  if (choice === 'system') return systemIsDark ? 'dark' : 'light';
  return choice === 'night' ? 'dark' : 'light';
}
