const STORE_KEY = 'beadwright.practice-class';
export const LARGEST_CLASS = 12;

export interface ClassResult {
  readonly seed: number;
  readonly family: string | null;
  readonly initials: string;
  readonly points: number;
  readonly namedCause: string;
  readonly isCauseRight: boolean;
  readonly minutesSpent: number;
  readonly checks: number;
  readonly remedies: number;
}

/** Results of a class on this machine: who got how far with the same case. Initials only, kept in this browser. */
export class ClassList {
  results = $state.raw<readonly ClassResult[]>([]);
  readonly #store: Storage;

  constructor(store: Storage) {
    this.#store = store;
    this.results = readKept(store);
  }

  /** Results for one case, best first. */
  of(seed: number, family: string | null): readonly ClassResult[] {
    return this.results
      .filter((one) => one.seed === seed && one.family === family)
      .toSorted((a, b) => b.points - a.points || a.minutesSpent - b.minutesSpent);
  }

  /** Notes a result; the same initials with the same case replace their earlier one. A fault in words, or null. */
  note(result: ClassResult): string | null {
    const initials = result.initials.trim().toUpperCase();
    const fault = faultOfInitials(initials);
    if (fault) return fault;
    const isSame = (one: ClassResult) =>
      one.seed === result.seed && one.family === result.family && one.initials === initials;
    const others = this.results.filter((one) => !isSame(one));
    if (
      others.filter((one) => one.seed === result.seed && one.family === result.family).length >= LARGEST_CLASS
    )
      return `A class has at most ${LARGEST_CLASS} people; clear the table for the next one.`;
    this.#keep([...others, { ...result, initials }]);
    return null;
  }

  clear(seed: number, family: string | null): void {
    this.#keep(this.results.filter((one) => one.seed !== seed || one.family !== family));
  }

  #keep(results: readonly ClassResult[]): void {
    this.results = results;
    try {
      this.#store.setItem(STORE_KEY, JSON.stringify(results));
    } catch {
      // A full or missing store: the table lasts as long as the page.
    }
  }
}

export function faultOfInitials(text: string): string | null {
  return /^\p{L}{1,4}$/u.test(text.trim()) ? null : 'Initials are one to four letters.';
}

function readKept(store: Storage): readonly ClassResult[] {
  try {
    const kept: unknown = JSON.parse(store.getItem(STORE_KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isResult) : [];
  } catch {
    return [];
  }
}

function isResult(value: unknown): value is ClassResult {
  if (!value || typeof value !== 'object') return false;
  const one = value as Record<string, unknown>;
  return (
    typeof one['seed'] === 'number' &&
    (one['family'] === null || typeof one['family'] === 'string') &&
    typeof one['initials'] === 'string' &&
    typeof one['namedCause'] === 'string' &&
    typeof one['isCauseRight'] === 'boolean' &&
    ['points', 'minutesSpent', 'checks', 'remedies'].every((key) => typeof one[key] === 'number')
  );
}
