import type { Guide } from '../../src-core/contract/guide-view.ts';
import { createWordBook, type WordBook } from '../../src-core/words/word-book.ts';

type Entry<K extends keyof Omit<Guide, 'version' | 'words' | 'makeSafe'>> = Guide[K][number];

/** The guide with its entries at hand by id. */
export interface GuideBook {
  readonly guide: Guide;
  /** The words of the trade, for searching. */
  readonly wordBook: WordBook;
  readonly observations: ReadonlyMap<string, Entry<'observations'>>;
  readonly causes: ReadonlyMap<string, Entry<'causes'>>;
  readonly remedies: ReadonlyMap<string, Entry<'remedies'>>;
  readonly conditions: ReadonlyMap<string, Entry<'conditions'>>;
  readonly materials: ReadonlyMap<string, Entry<'materials'>>;
  readonly practices: ReadonlyMap<string, Entry<'practices'>>;
  readonly mechanisms: ReadonlyMap<string, Entry<'mechanisms'>>;
  readonly cautions: ReadonlyMap<string, Entry<'cautions'>>;
  readonly maintenanceTasks: ReadonlyMap<string, Entry<'maintenanceTasks'>>;
}

export function createGuideBook(guide: Guide): GuideBook {
  return {
    guide,
    wordBook: createWordBook(guide.words),
    observations: byId(guide.observations),
    causes: byId(guide.causes),
    remedies: byId(guide.remedies),
    conditions: byId(guide.conditions),
    materials: byId(guide.materials),
    practices: byId(guide.practices),
    mechanisms: byId(guide.mechanisms),
    cautions: byId(guide.cautions),
    maintenanceTasks: byId(guide.maintenanceTasks),
  };
}

function byId<T extends { readonly id: string }>(entries: readonly T[]): ReadonlyMap<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}
