import {
  FIRST_DISPLAY,
  TEMPERATURE_UNITS,
  THEMES,
  type Display,
  type TemperatureUnit,
  type Theme,
} from '../../src-core/contract/display-choices.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Shop } from '../../src-core/contract/shop-records.ts';

/** Where earlier versions kept the settings, in the browser. */
const OLD_STORE_KEY = 'beadwright.display';

/** How the shop's screens show things. Kept in the casebook; the host marks the page with it, so that nothing flashes. */
export class DisplaySettings {
  theme = $state<Theme>(FIRST_DISPLAY.theme);
  temperatureUnit = $state<TemperatureUnit>(FIRST_DISPLAY.temperatureUnit);
  #revision = 0;

  /** `marks`: the data attributes of the page. */
  constructor(marks: Readonly<Record<string, string | undefined>>) {
    this.theme = THEMES.find((one) => one === marks['theme']) ?? this.theme;
    this.temperatureUnit =
      TEMPERATURE_UNITS.find((one) => one === marks['temperatureUnit']) ?? this.temperatureUnit;
    this.#revision = Number(marks['displayRevision'] ?? 0);
  }

  /** Shows the theme on the page; call inside an effect. */
  apply(prefersDark: boolean): void {
    const isDark = this.theme === 'dark' || (this.theme === 'system' && prefersDark);
    document.documentElement.dataset['theme'] = isDark ? 'dark' : 'light';
  }

  /** Takes what another screen may have chosen since this page came. */
  async read(host: HostApi): Promise<void> {
    const reply = await host.call('shop:read', {});
    if (reply.ok) this.#take(reply.value);
  }

  /** Shows it at once and keeps it for the shop. Answers what went wrong, or an empty text. */
  async choose(host: HostApi, change: Partial<Display>): Promise<string> {
    const display = { theme: this.theme, temperatureUnit: this.temperatureUnit, ...change };
    this.#show(display);
    const reply = await host.call('shop:save-display', { display, revision: this.#revision });
    if (reply.ok) {
      this.#take(reply.value);
      return '';
    }
    if (reply.error.code === 'stale') {
      await this.read(host);
      return reply.error.message;
    }
    return `It lasts as long as this page: ${reply.error.message}`;
  }

  /** Takes over, once, what an earlier version kept in this browser, where the shop has not said anything else. */
  async takeOver(host: HostApi, store: Storage | null): Promise<void> {
    try {
      const kept = store?.getItem(OLD_STORE_KEY) ?? null;
      if (kept === null) return;
      store?.removeItem(OLD_STORE_KEY);
      const old: unknown = JSON.parse(kept);
      if (this.#revision > 0 || typeof old !== 'object' || old === null) return;
      const theme = 'theme' in old ? THEMES.find((one) => one === old.theme) : undefined;
      const temperatureUnit =
        'temperatureUnit' in old ? TEMPERATURE_UNITS.find((one) => one === old.temperatureUnit) : undefined;
      if (theme ?? temperatureUnit)
        await this.choose(host, { ...(theme && { theme }), ...(temperatureUnit && { temperatureUnit }) });
    } catch {
      // An unreadable store: the shop's settings serve.
    }
  }

  #take({ display, revisions }: Pick<Shop, 'display' | 'revisions'>): void {
    this.#show(display);
    this.#revision = revisions.display;
  }

  #show({ theme, temperatureUnit }: Display): void {
    this.theme = theme;
    this.temperatureUnit = temperatureUnit;
  }
}

export const display = new DisplaySettings(
  typeof document === 'undefined' ? {} : { ...document.documentElement.dataset },
);
