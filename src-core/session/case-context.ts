import type {
  CaseEvent,
  CouldNotReason,
  Intake,
  OtherCase,
  Outcome,
  TriedReach,
  TriedWith,
} from '../contract/case-event.ts';

type Closed = Extract<CaseEvent, { kind: 'closed' }>;

/**
 * What a case's events add up to. Plain data: it survives JSON unchanged. Nothing in it grows with the number of events
 * alone (notes stand in the log only), so that the hundredth event costs what the third costs.
 */
export interface CaseContext {
  readonly intake: Intake | null;
  readonly conditions: Readonly<Record<string, string | number>>;
  /** Observation id to level id or measured number, in the order in which they were last looked at. */
  readonly findings: Readonly<Record<string, string | number>>;
  /** Findings made after remedies were tried: observation id to how many came before it. Others were made before any. */
  readonly seenAfterTries: Readonly<Record<string, number>>;
  /** Tried and could not be told: not asked again by itself. */
  readonly notTellable: readonly string[];
  readonly skipped: readonly string[];
  /** The observation the operator asked for, until it is answered or passed over. */
  readonly wanted: string | null;
  readonly tried: readonly TriedInCase[];
  /** Of `tried`, how many belong to earlier rounds: a case that is taken up again after a cure begins a new one. */
  readonly triedBefore: number;
  /** Remedies that could not be done in this round. */
  readonly notDoable: readonly NotDoable[];
  readonly remedy: { readonly id: string; readonly doneSteps: readonly number[] } | null;
  readonly dangerSigns: readonly string[];
  /** Initials of the qualified person who took over after the last danger sign; null while nobody has. */
  readonly takenOverBy: string | null;
  readonly closing: Omit<Closed, 'kind'> | null;
  /** The case that this one was the same as: it leads there, and counts there only. */
  readonly mergedInto: OtherCase | null;
  /** Cases that were the same as this one. */
  readonly merged: readonly OtherCase[];
  /** The case that this one came from. */
  readonly cameFrom: OtherCase | null;
  /** The lead's own words on it, from A to Z. */
  readonly tags: readonly string[];
}

export interface TriedInCase {
  readonly remedy: string;
  readonly outcome: Outcome;
  /** How well it was carried out; well when left out. */
  readonly done?: 'well' | 'doubtful' | undefined;
  /** Which part went in, where somebody said. */
  readonly with?: TriedWith | undefined;
  /** How far the setting was taken, where somebody said. */
  readonly reach?: TriedReach | undefined;
}

export interface NotDoable {
  readonly remedy: string;
  readonly reason: CouldNotReason;
}

export const emptyContext: CaseContext = {
  intake: null,
  conditions: {},
  findings: {},
  seenAfterTries: {},
  notTellable: [],
  skipped: [],
  wanted: null,
  tried: [],
  triedBefore: 0,
  notDoable: [],
  remedy: null,
  dangerSigns: [],
  takenOverBy: null,
  closing: null,
  mergedInto: null,
  merged: [],
  cameFrom: null,
  tags: [],
};

/**
 * Remedies not to be offered: tried in this round, or not doable in it. An earlier round's may be worth doing again, and so is what
 * was done by halves once: badly, or with a setting moved by one small step.
 */
export function remediesDoneWith({ tried, triedBefore, notDoable }: CaseContext): ReadonlySet<string> {
  const now = tried.slice(triedBefore);
  const isDone = (one: TriedInCase) =>
    one.outcome === 'worse' ||
    !(one.done === 'doubtful' || one.reach === 'one-small-step') ||
    now.filter(({ remedy }) => remedy === one.remedy).length > 1;
  return new Set([...now.filter(isDone), ...notDoable].map(({ remedy }) => remedy));
}
