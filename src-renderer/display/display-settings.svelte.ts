export type Theme = 'light' | 'dark' | 'system';
export type TemperatureUnit = '°C' | '°F';

const STORE_KEY = 'beadwright.display';

/** How this screen shows things: theme and temperature unit, kept on this device. */
class DisplaySettings {
  theme = $state<Theme>('system');
  temperatureUnit = $state<TemperatureUnit>('°C');

  constructor() {
    try {
      const kept: unknown = JSON.parse(window.localStorage.getItem(STORE_KEY) ?? '{}');
      if (kept && typeof kept === 'object') {
        if ('theme' in kept && (kept.theme === 'light' || kept.theme === 'dark')) this.theme = kept.theme;
        if ('temperatureUnit' in kept && kept.temperatureUnit === '°F') this.temperatureUnit = '°F';
      }
    } catch {
      // No store or an unreadable one: the first settings serve.
    }
  }

  /** Shows the settings on the page and keeps them; call inside an effect. */
  apply(prefersDark: boolean): void {
    const isDark = this.theme === 'dark' || (this.theme === 'system' && prefersDark);
    document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light';
    try {
      window.localStorage.setItem(
        STORE_KEY,
        JSON.stringify({ theme: this.theme, temperatureUnit: this.temperatureUnit }),
      );
    } catch {
      // A private window may have no store: the settings last as long as the window.
    }
  }
}

export const display = new DisplaySettings();
