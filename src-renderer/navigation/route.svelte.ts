import { createSubscriber } from 'svelte/reactivity';

/** Where the program is: "#/case/ID" is ["case", "ID"]. Hash addresses work on both hosts and survive a reload. */
export function routeOf(hash: string): readonly string[] {
  return hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decoded);
}

/** A part as it was before it was encoded; one that is badly encoded (a link cut short) stays as it is. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

class Route {
  #track = createSubscriber((update) => {
    window.addEventListener('hashchange', update);
    return () => window.removeEventListener('hashchange', update);
  });

  /** Reactive parts of the current address. */
  get parts(): readonly string[] {
    this.#track();
    return routeOf(window.location.hash);
  }
}

export const route = new Route();

export function hrefTo(...parts: readonly string[]): string {
  return `#/${parts.map(encodeURIComponent).join('/')}`;
}

export function goTo(...parts: readonly string[]): void {
  window.location.hash = hrefTo(...parts);
}
