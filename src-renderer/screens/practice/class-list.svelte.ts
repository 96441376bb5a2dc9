import { keepIn } from '../../host/session-store.ts';

const STORE_KEY = 'beadwright.practice-class';
/** Results that one case's table holds: a class of twelve, everybody with a second try. */
export const MOST_RESULTS = 24;

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

/** A result as the table shows it. */
interface ClassRow extends ClassResult {
  /** The initials, numbered from the second result on: "RK", "RK 2". */
  readonly who: string;
}

/** What became of a result: the words it stands under, or what is wrong with it. */
type Noted = { readonly who: string; readonly fault: null } | { readonly who: null; readonly fault: string };

/** Results of a class on this machine: who got how far with the same case. Initials only, kept in this browser. */
export class ClassList {
  /** In the order in which they were noted. */
  results = $state.raw<readonly ClassResult[]>([]);
  readonly #store: Storage;
  /** Whether the store holds what is here: a full one, or none, keeps nothing. */
  #isKept = true;

  constructor(store: Storage) {
    this.#store = store;
    this.results = readKept(store);
  }

  /** Results for one case, best first. */
  of(seed: number, family: string | null): readonly ClassRow[] {
    return numbered(this.results.filter((one) => one.seed === seed && one.family === family)).toSorted(
      (a, b) => b.points - a.points || a.minutesSpent - b.minutesSpent,
    );
  }

  /** Notes a result. The same initials with the same case may be somebody else's: both stay, the later one numbered. */
  note(result: ClassResult): Noted {
    const initials = result.initials.trim().toUpperCase();
    const fault = faultOfInitials(initials);
    if (fault) return { who: null, fault };
    this.#takeUp();
    const earlier = this.of(result.seed, result.family);
    if (earlier.length >= MOST_RESULTS)
      return {
        who: null,
        fault: `The table holds at most ${MOST_RESULTS} results; clear it for the next class.`,
      };
    this.#keep([...this.results, { ...result, initials }]);
    return {
      who: whoWords(initials, earlier.filter((one) => one.initials === initials).length),
      fault: null,
    };
  }

  clear(seed: number, family: string | null): void {
    this.#takeUp();
    this.#keep(this.results.filter((one) => one.seed !== seed || one.family !== family));
  }

  /** What another page of this browser noted or cleared meanwhile; not where the store could not keep what is here. */
  #takeUp(): void {
    if (this.#isKept) this.results = readKept(this.#store);
  }

  #keep(results: readonly ClassResult[]): void {
    this.results = results;
    keepIn(this.#store, STORE_KEY, results);
    this.#isKept = JSON.stringify(readKept(this.#store)) === JSON.stringify(results);
  }
}

function numbered(results: readonly ClassResult[]): readonly ClassRow[] {
  return results.map((one, index) => ({
    ...one,
    who: whoWords(one.initials, results.slice(0, index).filter((e) => e.initials === one.initials).length),
  }));
}

function whoWords(initials: string, earlier: number): string {
  return earlier === 0 ? initials : `${initials}\u00a0${earlier + 1}`;
}

function faultOfInitials(text: string): string | null {
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
