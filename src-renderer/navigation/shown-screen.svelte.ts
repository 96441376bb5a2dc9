import type { Component } from 'svelte';
import { hrefTo } from './route.svelte.ts';
import { screenFor, type Screen } from './sections.ts';
import { m } from '../messages/en/navigation.ts';

interface Shown {
  readonly key: string;
  /** The address that it was brought for, as it stands behind the "#/". */
  readonly address: string;
  readonly Component: Component<Record<string, unknown>>;
  readonly props: Record<string, unknown>;
}

/** The screen of the address, once its code is there; until then the one before stays, so that nothing flashes. */
export class ShownScreen {
  current = $state.raw<Shown | null>(null);
  failure = $state('');
  readonly wanted: Screen = $derived.by(() => screenFor(this.#parts()));
  readonly #parts: () => readonly string[];

  /** To be made while a component is set up: it follows `parts` as long as that one lives. */
  constructor(parts: () => readonly string[]) {
    this.#parts = parts;
    $effect(() => {
      const { key, load, props } = this.wanted;
      const address = hrefTo(...this.#parts()).slice('#/'.length);
      let isWanted = true;
      load().then(
        (module) => {
          if (isWanted) this.#show({ key, address, Component: module.default, props });
        },
        () => {
          if (isWanted) this.#fail();
        },
      );
      return () => {
        isWanted = false;
      };
    });
  }

  /** Whether what is shown is what the address wants. */
  get isThere(): boolean {
    return this.current?.key === screenFor(this.#parts()).key;
  }

  #show(shown: Shown): void {
    this.failure = '';
    this.current = shown;
  }

  #fail(): void {
    this.failure = m.thisScreenCouldNotBeBrought();
  }
}
