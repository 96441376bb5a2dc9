import type { UnknownWord } from '../contract/spreadsheet-view.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { createFinder, type Finder } from '../words/finder.ts';
import { createWordBook } from '../words/word-book.ts';

interface Entry {
  readonly id: string;
  readonly label: string;
  readonly alsoCalled: readonly string[];
}

/** The guide's entries by what they are called, word for word; what is called otherwise is offered, never taken. */
export interface GuideWords {
  readonly complaint: (text: string) => string | null;
  readonly cause: (text: string) => string | null;
  readonly suggest: (field: UnknownWord['field'], text: string) => UnknownWord['suggestions'];
}

const MOST_SUGGESTIONS = 4;

export function guideWords(knowledge: Pick<Knowledge, 'observations' | 'causes' | 'words'>): GuideWords {
  const complaints = [...knowledge.observations.values()].filter(({ complaint }) => complaint);
  const causes = [...knowledge.causes.values()];
  const book = createWordBook(knowledge.words);
  const finders: Readonly<Record<UnknownWord['field'], Finder<Entry>>> = {
    complaint: createFinder<Entry>(complaints, book),
    cause: createFinder<Entry>(causes, book),
  };
  const byName = { complaint: namesOf(complaints), cause: namesOf(causes) };
  return {
    complaint: (text) => byName.complaint.get(keyOf(text)) ?? null,
    cause: (text) => byName.cause.get(keyOf(text)) ?? null,
    suggest: (field, text) =>
      finders[field](text)
        .slice(0, MOST_SUGGESTIONS)
        .map(({ entry: { id, label } }) => ({ id, label })),
  };
}

/** Words of a cell as they are looked up and remembered. */
export function keyOf(text: string): string {
  return text.trim().replace(/\s+/g, ' ').toLowerCase();
}

function namesOf(entries: readonly Entry[]): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  const doubled = new Set<string>();
  for (const { id, label, alsoCalled } of entries)
    for (const name of [label, id, ...alsoCalled].map(keyOf)) {
      if (names.has(name) && names.get(name) !== id) doubled.add(name);
      names.set(name, id);
    }
  // What two are called says neither.
  for (const name of doubled) names.delete(name);
  for (const { id, label } of entries) names.set(keyOf(label), id);
  return names;
}
