import type { CaseEvent } from '../../../src-core/contract/case-event.ts';
import type { CaseView } from '../../../src-core/contract/case-view.ts';
import { typedNumber } from '../../wording/temperature-input.ts';

type Closed = Extract<CaseEvent, { kind: 'closed' }>;

/** At most this many causes are confirmed in one case. */
const MOST_CAUSES = 4;

/** What is entered to close a case; starts from what the reasoning suggests. */
export class ClosingForm {
  causes = $state.raw<readonly string[]>([]);
  /** Causes the guide lacks, in the operator's words. */
  named = $state('');
  practice = $state<string | null>(null);
  minutesLost = $state('');
  gramsScrapped = $state('0');
  note = $state('');

  /** `leftOut` are suggested causes that are not to be picked beforehand. */
  constructor(suggested: CaseView['suggestedClosing'], leftOut: readonly string[] = []) {
    this.causes = suggested.causes.filter((cause) => !leftOut.includes(cause)).slice(0, MOST_CAUSES);
    this.minutesLost = String(Math.round(suggested.minutesSinceOpened));
  }

  mark(cause: string, isConfirmed: boolean): void {
    const others = this.causes.filter((one) => one !== cause);
    this.causes = isConfirmed ? [...others, cause] : others;
  }

  get faultOfCauses(): string | null {
    const count = this.causes.length + (this.named.trim() ? 1 : 0);
    if (count === 0) return 'Name the cause: pick one, search for it, or write it in your own words.';
    return count > MOST_CAUSES ? `At most ${MOST_CAUSES} causes; you have ${count}.` : null;
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

/** Causes too unlikely to be picked beforehand where no cure has confirmed anything: below 30 %. */
export function unlikelyCauses(view: Pick<CaseView, 'candidates'>): string[] {
  return view.candidates.filter((one) => one.probability < 0.3).map((one) => one.cause);
}

function faultOfAmount(text: string, max: number, unit: string): string | null {
  const value = typedNumber(text);
  if (text.trim() === '' || !Number.isFinite(value)) return `Enter a number of ${unit}; 0 when none.`;
  return value >= 0 && value <= max
    ? null
    : `It must lie between 0 and ${max.toLocaleString('en-GB')} ${unit}.`;
}
