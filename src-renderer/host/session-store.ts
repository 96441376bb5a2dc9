/** What lasts as long as the window; null where the browser keeps nothing. */
export function sessionStore(): Storage | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}

/** What lasts in this browser; null where it keeps nothing. */
export function localStore(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

/** Keeps a value under a key; where the store is full or missing, it lasts as long as the page. */
export function keepIn(store: Storage | null, key: string, value: unknown): void {
  try {
    store?.setItem(key, JSON.stringify(value));
  } catch {
    // See above: not kept, and nothing lost on this page.
  }
}

/** What an earlier page kept; anything of another shape counts as nothing. */
export function readKept<T>(
  store: Storage | null,
  key: string,
  isKept: (value: unknown) => value is T,
): T | null {
  try {
    const kept: unknown = JSON.parse(store?.getItem(key) ?? 'null');
    return isKept(kept) ? kept : null;
  } catch {
    return null;
  }
}

export function forgetIn(store: Storage | null, key: string): void {
  try {
    store?.removeItem(key);
  } catch {
    // Nothing was kept then.
  }
}
