import type { Locator, Page } from 'playwright-core';

/**
 * How long hands and head take, s, by the keystroke-level model (Card, Moran and Newell, Communications of the ACM 23(7), 1980; the
 * figures from memory): think 1.35, point 1.1, press 0.2, hands to the keys 0.4, a key 0.28 for somebody who types now and then.
 */
const THINK_S = 1.35;
const POINT_S = 1.1;
const PRESS_S = 0.2;
const TO_THE_KEYS_S = 0.4;
const KEY_S = 0.28;

/** Somebody at a screen: what they press and type is done at once, and counted at the pace of a person. */
export class Person {
  clicks = 0;
  seconds = 0;
  readonly #page: Page;

  constructor(page: Page) {
    this.#page = page;
  }

  async tap(target: Locator): Promise<void> {
    await target.click();
    this.clicks += 1;
    this.seconds += THINK_S + POINT_S + PRESS_S;
  }

  async type(words: string): Promise<void> {
    await this.#page.keyboard.type(words);
    this.seconds += THINK_S + TO_THE_KEYS_S + KEY_S * words.length;
  }

  async press(key: string): Promise<void> {
    await this.#page.keyboard.press(key);
    this.seconds += KEY_S;
  }
}
