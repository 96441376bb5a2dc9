import { locale } from '../../../messages/language.ts';
import type { CaseEvent } from '../../../../src-core/contract/case-event.ts';
import type { CaseView } from '../../../../src-core/contract/case-view.ts';
import { typedNumber } from '../../../wording/temperature-input.ts';
import { forgetIn, keepIn, readKept } from '../../../host/session-store.ts';
import { m } from '../../../messages/en/case-closing.ts';

type Closed = Extract<CaseEvent, { kind: 'closed' }>;

/** At most this many causes are confirmed in one case. */
const MOST_CAUSES = 4;

const STORE_KEY = 'beadwright.closing';

/** What is entered, of one case: a reload in the middle loses nothing. */
interface KeptClosing {
  readonly caseId: string;
  readonly causes: readonly string[];
  readonly named: string;
  readonly practice: string | null;
  readonly minutesLost: string;
  readonly gramsScrapped: string;
  readonly note: string;
}

/** What is entered to close a case; starts from what the reasoning suggests, or from what was entered before a reload. */
export class ClosingForm {
  causes = $state.raw<readonly string[]>([]);
  /** Causes the guide lacks, in the operator's words. */
  named = $state('');
  practice = $state<string | null>(null);
  minutesLost = $state('');
  gramsScrapped = $state('');
  note = $state('');

  /** `leftOut` are suggested causes that are not to be picked beforehand. */
  constructor(suggested: CaseView['suggestedClosing'], leftOut: readonly string[] = []) {
    this.causes = suggested.causes.filter((cause) => !leftOut.includes(cause)).slice(0, MOST_CAUSES);
  }

  /** Takes up what was entered for this case before the page was loaded again. */
  restore(store: Storage | null, caseId: string): void {
    const kept = readKept(store, STORE_KEY, isKept);
    if (kept?.caseId !== caseId) return;
    this.causes = kept.causes;
    this.named = kept.named;
    this.practice = kept.practice;
    this.minutesLost = kept.minutesLost;
    this.gramsScrapped = kept.gramsScrapped;
    this.note = kept.note;
  }

  keep(store: Storage | null, caseId: string): void {
    const { causes, named, practice, minutesLost, gramsScrapped, note } = this;
    const kept: KeptClosing = { caseId, causes, named, practice, minutesLost, gramsScrapped, note };
    keepIn(store, STORE_KEY, kept);
  }

  /** Nothing was lost and nothing scrapped. */
  costNothing(): void {
    this.minutesLost = '0';
    this.gramsScrapped = '0';
  }

  mark(cause: string, isConfirmed: boolean): void {
    const others = this.causes.filter((one) => one !== cause);
    this.causes = isConfirmed ? [...others, cause] : others;
  }

  get faultOfCauses(): string | null {
    const count = this.causes.length + (this.named.trim() ? 1 : 0);
    if (count === 0) return m.nameTheCausePickOneSearch();
    return count > MOST_CAUSES ? m.atMostCausesYouHave({ mostCauses: MOST_CAUSES, count }) : null;
  }

  get faultOfMinutes(): string | null {
    return faultOfAmount(this.minutesLost, 100_000, 'minutes');
  }

  get faultOfGrams(): string | null {
    return faultOfAmount(this.gramsScrapped, 1_000_000, 'grams');
  }

  /** The event that closes the case, or null while something is faulty. */
  toEvent(): Closed | null {
    if (this.faultOfCauses ?? this.faultOfMinutes ?? this.faultOfGrams) return null;
    const named = this.named.trim();
    return {
      kind: 'closed',
      causes: [...this.causes.map((cause) => ({ cause })), ...(named ? [{ named }] : [])],
      practice: this.practice,
      minutesLost: typedNumber(this.minutesLost),
      gramsScrapped: typedNumber(this.gramsScrapped),
      note: this.note.trim(),
    };
  }
}

/** Forgets what was entered, once the case is closed or left. */
export function forgetClosing(store: Storage | null): void {
  forgetIn(store, STORE_KEY);
}

function isKept(value: unknown): value is KeptClosing {
  if (typeof value !== 'object' || value === null) return false;
  const kept = value as Partial<Record<keyof KeptClosing, unknown>>;
  const texts = [kept.caseId, kept.named, kept.minutesLost, kept.gramsScrapped, kept.note];
  return (
    texts.every((text) => typeof text === 'string') &&
    (kept.practice === null || typeof kept.practice === 'string') &&
    Array.isArray(kept.causes) &&
    kept.causes.every((cause) => typeof cause === 'string')
  );
}

/** Causes too unlikely to be picked beforehand where no cure has confirmed anything: below 30 %. */
export function unlikelyCauses(view: Pick<CaseView, 'candidates'>): string[] {
  return view.candidates.filter((one) => one.probability < 0.3).map((one) => one.cause);
}

function faultOfAmount(text: string, max: number, unit: string): string | null {
  const value = typedNumber(text);
  if (text.trim() === '' || !Number.isFinite(value)) return m.sayHowMany0WhenNone({ unit });
  return value >= 0 && value <= max
    ? null
    : m.itMustLieBetween0And({ max: max.toLocaleString(locale()), unit });
}
