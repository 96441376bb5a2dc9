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
import { m } from '../messages/en/display.ts';

/** Where earlier versions kept the settings, in the browser. */
const OLD_STORE_KEY = 'beadwright.display';

/**
 * How the shop's screens show things. Kept in the casebook; the host marks the page with it, so that nothing flashes.
 *
 * What is chosen lies over what the casebook says until it is kept: a reading that comes late, or the answer to the choice
 * before, does not turn it back. Choices are kept one after the other, so that the second knows the revision of the first.
 */
export class DisplaySettings {
  #kept = $state.raw<Display>(FIRST_DISPLAY);
  #chosen = $state.raw<readonly Partial<Display>[]>([]);
  #revision = 0;
  #keeping: Promise<unknown> = Promise.resolve();
  #shown = $derived(withChoices(this.#kept, this.#chosen));

  /** `marks`: the data attributes of the page. */
  constructor(marks: Readonly<Record<string, string | undefined>>) {
    this.#kept = {
      theme: THEMES.find((one) => one === marks['theme']) ?? FIRST_DISPLAY.theme,
      temperatureUnit:
        TEMPERATURE_UNITS.find((one) => one === marks['temperatureUnit']) ?? FIRST_DISPLAY.temperatureUnit,
    };
    this.#revision = Number(marks['displayRevision'] ?? 0);
  }

  get theme(): Theme {
    return this.#shown.theme;
  }

  get temperatureUnit(): TemperatureUnit {
    return this.#shown.temperatureUnit;
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
  choose(host: HostApi, change: Partial<Display>): Promise<string> {
    const chosen = { ...change };
    this.#chosen = [...this.#chosen, chosen];
    const kept = this.#keeping.then(() => this.#keep(host, chosen));
    this.#keeping = kept.catch(() => undefined);
    return kept;
  }

  async #keep(host: HostApi, chosen: Partial<Display>): Promise<string> {
    // With what could not be kept before: it is tried again.
    const upToThis = this.#chosen.slice(0, this.#chosen.indexOf(chosen) + 1);
    const display = withChoices(this.#kept, upToThis);
    const reply = await host.call('shop:save-display', { display, revision: this.#revision });
    if (!reply.ok && reply.error.code !== 'stale')
      return m.itLastsAsLongAsThis({ message: reply.error.message });
    if (reply.ok) this.#take(reply.value);
    else await this.read(host);
    this.#chosen = this.#chosen.filter((one) => !upToThis.includes(one));
    return reply.ok ? '' : reply.error.message;
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

  /** Answers may overtake each other: an older revision than the one at hand says nothing new. */
  #take({ display, revisions }: Pick<Shop, 'display' | 'revisions'>): void {
    if (revisions.display < this.#revision) return;
    this.#kept = display;
    this.#revision = revisions.display;
  }
}

function withChoices(kept: Display, choices: readonly Partial<Display>[]): Display {
  return choices.reduce<Display>((shown, change) => ({ ...shown, ...change }), kept);
}

export const display = new DisplaySettings(
  typeof document === 'undefined' ? {} : { ...document.documentElement.dataset },
);
