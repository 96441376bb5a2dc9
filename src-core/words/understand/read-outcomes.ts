import type { WordBook } from '../word-book.ts';
import type { Place } from './chips.ts';
import type { Clause } from './clauses.ts';
import { createPhraseSpotter } from './spot-phrases.ts';

/** How a try or comparison went. */
export type SaidOutcome = 'cured' | 'better' | 'unchanged';

/** Reads how a try or a comparison went: "no change", "fixed it", "prints fine". */
export function createOutcomeReader(book: WordBook) {
  const { cured, better, unchanged } = book.words.said;
  const spot = createPhraseSpotter<SaidOutcome>(
    [
      ...unchanged.map((phrase) => ({ phrase, means: 'unchanged' as const })),
      ...better.map((phrase) => ({ phrase, means: 'better' as const })),
      ...cured.map((phrase) => ({ phrase, means: 'cured' as const })),
    ],
    book,
  );
  return (clause: Clause): { outcome: SaidOutcome; place: Place } | null => {
    const found = spot(clause.unread);
    // The longest and then the last one is what the clause comes to.
    const [first] = [...found].sort((a, b) => b.to - b.from - (a.to - a.from) || b.from - a.from);
    const outcome = first?.means[0];
    return first && outcome ? { outcome, place: { from: first.from, to: first.to } } : null;
  };
}
