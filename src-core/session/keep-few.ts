/**
 * Remembers what was made for an owner by a key: of each owner the `most` made last, as long as the owner is there.
 * Returns what is kept, or makes it.
 */
export function keepFew<Owner extends object, Made>(
  most: number,
): (owner: Owner, key: string, make: () => Made) => Made {
  const byOwner = new WeakMap<Owner, Map<string, Made>>();
  return (owner, key, make) => {
    const kept = byOwner.get(owner) ?? new Map<string, Made>();
    byOwner.set(owner, kept);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make();
    kept.set(key, made);
    const [first] = kept.keys();
    if (kept.size > most && first !== undefined) kept.delete(first);
    return made;
  };
}
