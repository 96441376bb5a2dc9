/** A store that forgets: a group's case is not to be taken up as somebody's own practice case. */
export function keepNothing(): Storage {
  return {
    length: 0,
    clear: () => undefined,
    getItem: () => null,
    key: () => null,
    removeItem: () => undefined,
    setItem: () => undefined,
  };
}
