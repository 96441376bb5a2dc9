import type { Knowledge } from '../knowledge/knowledge.ts';

/** Keeps what was worked out of a guide, by key: the newest `most` of each guide. */
export class KeptByGuide<T> {
  readonly #kept = new WeakMap<Knowledge, Map<string, T>>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  /** What is kept under the key, or else what `make` says, kept from now on. */
  of(knowledge: Knowledge, key: string, make: () => T): T {
    const known = this.#kept.get(knowledge) ?? new Map<string, T>();
    this.#kept.set(knowledge, known);
    const before = known.get(key);
    if (before !== undefined) return before;
    const made = make();
    if (known.size >= this.#most) known.delete(known.keys().next().value ?? '');
    known.set(key, made);
    return made;
  }
}
