import type { Knowledge } from '../knowledge.ts';
import type { PlacedLists } from '../placed-lists.ts';

/** What the thorough checks work on: the compiled guide, and its entries with the lines they stand at. */
export interface ThoroughInput {
  readonly knowledge: Knowledge;
  readonly lists: PlacedLists;
}
