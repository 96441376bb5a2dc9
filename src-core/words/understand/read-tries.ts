import type { Observation, Remedy } from '../../knowledge/schema.ts';
import { createTextIndex } from '../text-index.ts';
import type { Unit, WordBook } from '../word-book.ts';
import type { Chip } from './chips.ts';
import type { Clause } from './clauses.ts';
import { fitTexts, type Fit } from './fit-texts.ts';
import { createOutcomeReader } from './read-outcomes.ts';

const SURE = 0.6;
const OFFERED = 0.4;
/** "Dried it": a clause that begins with what the remedy begins with tells of doing it, not of comparing. */
const BEGINS_LIKE_IT = 0.3;

/**
 * Reads what was tried or compared, and how it went: "dried it, no change", "another spool is no better",
 * "fine on the other machine". A clause that says how nothing went is left to the other readers.
 */
export function createTryReader(
  observations: readonly Observation[],
  remedies: readonly Remedy[],
  book: WordBook,
) {
  const comparisons = observations.filter((one) => one.kind === 'comparison' && !one.grades && !one.measure);
  const comparisonTexts = createTextIndex(comparisons, book);
  const remedyTexts = createTextIndex(remedies, book);
  const readOutcome = createOutcomeReader(book);
  const { cured, better, unchanged } = book.words.said;
  const outcomeTokens = new Set(
    [...cured, ...better, ...unchanged].flatMap((one) => book.unitsOf(one).map(({ token }) => token)),
  );
  // The outcome is said apart; what is compared is the rest.
  const isSubject = (unit: Unit) => !outcomeTokens.has(unit.token);
  /** "New plate works": here every word of the subject tells. */
  const subjectWeight = (unit: Unit) => (isSubject(unit) ? 1 : 0);

  /** Null where the clause does not say how something went. */
  return (clause: Clause): Chip[] | null => {
    const went = readOutcome(clause);
    if (!went) return null;
    const units = clause.units.filter((unit) => unit.to <= went.place.from || unit.from >= went.place.to);
    if (units.length === 0) return null;
    const [comparison] = fitTexts(comparisonTexts, units, subjectWeight);
    const [remedy] = fitTexts(remedyTexts, units)
      .map((fit) => ({
        ...fit,
        score: beginsAlike(fit, units) ? fit.score + BEGINS_LIKE_IT : fit.score * 0.8,
      }))
      .sort((a, b) => b.score - a.score);
    const places = units.map(({ from, to }) => ({ from, to }));
    const said = clause.text.slice(
      Math.min(went.place.from, ...places.map(({ from }) => from)),
      Math.max(went.place.to, ...places.map(({ to }) => to)),
    );
    const use = () => {
      for (const place of [...places, went.place]) clause.use(place);
    };
    if (remedy && remedy.score >= OFFERED && remedy.score > (comparison?.score ?? 0)) {
      const id = remedies[remedy.entry]?.id;
      // What cured it is no open trouble any more; it is compared with, not tried in vain.
      if (id !== undefined && went.outcome !== 'cured') {
        use();
        const outcome = went.outcome === 'better' ? 'better' : 'not-cured';
        const score = Math.min(1, remedy.score);
        return [
          { kind: 'tried', id, outcome, said, places: [...places, went.place], score, isSure: score >= SURE },
        ];
      }
    }
    if (!comparison || comparison.score < OFFERED) return null;
    const id = comparisons[comparison.entry]?.id;
    if (id === undefined) return null;
    use();
    const value = went.outcome === 'unchanged' ? 'absent' : 'present';
    return [
      {
        kind: 'observation',
        id,
        value,
        said,
        places: [...places, went.place],
        score: comparison.score,
        isSure: comparison.score >= SURE,
      },
    ];
  };
}

function beginsAlike({ text }: Fit, units: readonly Unit[]): boolean {
  return text.units[0] !== undefined && text.units[0].token === units[0]?.token;
}
