import { keepTheme, keptTheme, type ThemeChoice, themeOf } from './theme.ts';

/** The theme of this screen. Plots read its colours when they draw, so they follow `current`. */
export class Theme {
  choice = $state<ThemeChoice>('system');
  #systemIsDark = $state(false);

  constructor() {
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    this.choice = keptTheme(window.localStorage);
    this.#systemIsDark = dark.matches;
    dark.addEventListener('change', (event) => {
      this.#systemIsDark = event.matches;
    });
  }

  get current(): 'light' | 'dark' {
    return themeOf(this.choice, this.#systemIsDark);
  }

  choose(choice: ThemeChoice): void {
    this.choice = choice;
    keepTheme(choice, window.localStorage);
  }
}

export const theme = new Theme();
