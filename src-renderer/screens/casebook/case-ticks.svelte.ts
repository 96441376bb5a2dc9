import { SvelteMap } from 'svelte/reactivity';
import type { CaseRow } from '../../../src-core/contract/casebook-view.ts';

/** As many as one change takes. */
export const MOST_TICKED = 200;

/** Cases picked in the list, over pages and searches, as they were looked at. */
export class CaseTicks {
  readonly #rows = new SvelteMap<string, CaseRow>();

  get rows(): readonly CaseRow[] {
    return [...this.#rows.values()];
  }

  get count(): number {
    return this.#rows.size;
  }

  has(caseId: string): boolean {
    return this.#rows.has(caseId);
  }

  toggle(row: CaseRow): void {
    if (!this.#rows.delete(row.caseId) && this.#rows.size < MOST_TICKED) this.#rows.set(row.caseId, row);
  }

  /** All of a page; those that are ticked stay as they are. */
  tickAll(rows: readonly CaseRow[]): void {
    for (const row of rows) if (!this.has(row.caseId)) this.toggle(row);
  }

  clear(): void {
    this.#rows.clear();
  }
}
