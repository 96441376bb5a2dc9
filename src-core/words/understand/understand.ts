import type { Condition, Material, Observation, Remedy } from '../../knowledge/schema.ts';
import type { WordBook } from '../word-book.ts';
import { chipKey, type Chip } from './chips.ts';
import { Clause, clausesOf } from './clauses.ts';
import { createNameReader, type NamedRecord } from './read-names.ts';
import { createNumberReader } from './read-numbers.ts';
import { createObservationReader } from './read-observations.ts';
import { createOutcomeReader } from './read-outcomes.ts';
import { createTryReader } from './read-tries.ts';
import { CALLED_BY_NAME, createValueReader } from './read-values.ts';

/** What free words are read by: the guide's entries and the shop's printers and spools. */
export interface ReadBy {
  readonly observations: readonly Observation[];
  readonly conditions: readonly Condition[];
  readonly materials: readonly Material[];
  readonly remedies: readonly Remedy[];
  readonly printers: readonly NamedRecord[];
  readonly spools: readonly NamedRecord[];
}

/**
 * Makes a reader of free words: a sentence such as "stops extruding after an hour on Heron, new spool of black ABS" becomes chips,
 * each with the words it came from. The sure ones come first; what is not clear is offered, never taken.
 */
export function createUnderstanding(by: ReadBy, book: WordBook): (text: string) => Chip[] {
  const readNames = [
    createNameReader('printer', by.printers, book),
    createNameReader('spool', by.spools, book),
  ];
  const readNumbers = createNumberReader(by.conditions, book);
  const readValues = createValueReader(by.conditions, by.materials, book);
  const readTry = createTryReader(by.observations, by.remedies, book);
  const readOutcome = createOutcomeReader(book);
  const readObservations = createObservationReader(by.observations, book);

  return (text) => {
    const chips = joined(clausesOf(text, book), (clause) => isOutcomeAlone(clause, readOutcome)).flatMap(
      (clause) => {
        const names = readNames.flatMap((read) => read(clause));
        // What a comparison is made with is not what this case prints with.
        const tries = readTry(clause);
        if (tries) return [...names, ...tries];
        const isGood = readOutcome(clause)?.outcome === 'cured';
        const values = readValues(clause).filter(({ id }) => !isGood || !CALLED_BY_NAME.includes(id));
        const known = [...names, ...values, ...readNumbers(clause)];
        return [...known, ...readObservations(clause)];
      },
    );
    return settled(chips);
  };
}

/** "Dried it, no change": how it went belongs to what was done before it. */
function joined(clauses: readonly Clause[], isOutcome: (clause: Clause) => boolean): Clause[] {
  const all: Clause[] = [];
  for (const clause of clauses) {
    const before = all.at(-1);
    if (before && isOutcome(clause)) all[all.length - 1] = before.with(clause);
    else all.push(clause);
  }
  return all;
}

function isOutcomeAlone(clause: Clause, readOutcome: ReturnType<typeof createOutcomeReader>): boolean {
  const went = readOutcome(clause);
  return (
    went !== null && clause.units.every((unit) => unit.from >= went.place.from && unit.to <= went.place.to)
  );
}

/** Of several chips about one thing the surer stays, of equals the one said last; sure ones first, in the order they were said. */
function settled(chips: readonly Chip[]): Chip[] {
  const kept = new Map<string, Chip>();
  for (const chip of chips) {
    // Several readings of one word are all offered.
    const key = chip.isSure ? chipKey(chip) : `${chipKey(chip)} ${'value' in chip ? String(chip.value) : ''}`;
    const known = kept.get(key);
    if (!known || known.score <= chip.score) kept.set(key, chip);
  }
  const sure = new Set([...kept.values()].filter(({ isSure }) => isSure).map(chipKey));
  const place = (chip: Chip) => Math.min(...chip.places.map(({ from }) => from));
  return [...kept.values()]
    .filter((chip) => chip.isSure || !sure.has(chipKey(chip)))
    .sort((a, b) => Number(b.isSure) - Number(a.isSure) || place(a) - place(b) || b.score - a.score);
}
