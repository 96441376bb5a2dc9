import type { ShopCosts } from '../../../src-core/contract/shop-costs.ts';
import { asSentence } from '../../wording/label-words.ts';
import { faultOfNumber, typedNumber, type ShownNumber } from '../../wording/temperature-input.ts';
import { m } from '../../messages/en/shop.ts';

/** What is entered about the shop's money. Unticking keeps the figures; only emptied fields are forgotten. */
export class CostsForm {
  isCounted = $state(false);
  currency = $state('');
  workPerHour = $state('');
  standstillPerHour = $state('');
  /** By the guide's name of the part; empty where it has no price. */
  prices = $state<Record<string, string>>({});
  /** Names of the guide's parts. */
  readonly parts: readonly string[];
  /** Prices of parts that today's guide does not name: kept, for another version may name them again. */
  readonly #pricesOfOthers: Readonly<Record<string, number>>;

  constructor(parts: readonly string[], stored: ShopCosts | null) {
    this.parts = parts;
    this.isCounted = stored?.isCounted ?? false;
    this.currency = stored?.currency ?? '';
    this.workPerHour = shown(stored?.workPerHour);
    this.standstillPerHour = shown(stored?.standstillPerHour);
    this.prices = Object.fromEntries(parts.map((name) => [name, shown(stored?.parts[name])]));
    this.#pricesOfOthers = Object.fromEntries(
      Object.entries(stored?.parts ?? {}).filter(([name]) => !parts.includes(name)),
    );
  }

  /** What is wrong, in words, or null. A form with nothing in it is right as long as it is not to be counted. */
  get fault(): string | null {
    if (!this.isCounted && this.isEmpty) return null;
    const currency = this.currency.trim();
    if (currency === '') return m.sayWhatTheMoneyIsCalled();
    const wrongWork = faultOfNumber(this.workPerHour, amount(m.anHour({ currency })));
    if (wrongWork) return m.anHourOfWorkWithWrongWork({ wrongWork });
    const wrongStandstill = faultOfNumber(this.standstillPerHour, amount(m.anHour({ currency })));
    if (wrongStandstill) return m.anHourOfAMachineStandingIt({ wrongStandstill });
    if (typedNumber(this.workPerHour) <= 0) return m.anHourOfWorkCostsMore();
    for (const [name, text] of this.#priced) {
      const wrong = faultOfNumber(text, amount(currency));
      if (wrong) return `${asSentence(name)}: ${wrong}`;
    }
    return null;
  }

  /** What is stored of a form without fault: null where nothing is entered. */
  toCosts(): ShopCosts | null {
    if (this.isEmpty) return null;
    return {
      isCounted: this.isCounted,
      currency: this.currency.trim(),
      workPerHour: typedNumber(this.workPerHour),
      standstillPerHour: typedNumber(this.standstillPerHour),
      parts: {
        ...this.#pricesOfOthers,
        ...Object.fromEntries(this.#priced.map(([name, text]) => [name, typedNumber(text)])),
      },
    };
  }

  get #priced(): [name: string, text: string][] {
    return this.parts
      .map((name): [string, string] => [name, this.prices[name] ?? ''])
      .filter(([, text]) => text.trim() !== '');
  }

  get isEmpty(): boolean {
    const texts = [this.currency, this.workPerHour, this.standstillPerHour];
    return this.#priced.length === 0 && texts.every((text) => text.trim() === '');
  }
}

function shown(value: number | undefined): string {
  return value === undefined ? '' : String(value);
}

function amount(unit: string): ShownNumber {
  return { unit, min: 0, max: 1_000_000, toShown: (value) => value, toGuide: (typed) => typed };
}
