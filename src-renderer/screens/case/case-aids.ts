import { getContext, setContext, type Component } from 'svelte';
import type { Question } from '../../../src-core/contract/case-view.ts';

/**
 * What a practice case puts into the screens of a case: the simulated machine where a real one would stand, and lists to choose
 * from where the guide would have chosen. A real case has none of it.
 */
export interface CaseAids {
  /** At the gate: which danger signs can be seen. */
  readonly Gate: Component;
  /** Under a question: to look, and what is found. */
  readonly Finding: Component<{ question: Question }>;
  /** Before the steps of a remedy. */
  readonly Cautions: Component;
  /** After a remedy: how it came out. */
  readonly Outcome: Component;
  readonly PickCheck: Component;
  readonly PickRemedy: Component;
  readonly PickCause: Component<{ chosen: readonly string[]; onpick: (cause: string) => void }>;
  /** At the end, in the place of what a real case has cost. */
  readonly HowSure: Component;
}

const KEY = Symbol('case aids');

export function setCaseAids(aids: CaseAids): void {
  setContext(KEY, aids);
}

export function getCaseAids(): CaseAids | null {
  return getContext<CaseAids | undefined>(KEY) ?? null;
}
