import type { ShopCosts } from '../contract/shop-costs.ts';
import type { SpoolParts } from '../moisture/index.ts';
import type { WorkedOut } from '../words/guide-figures.ts';
import type { CaseMoment, NoPlaceFor } from './case-flow.ts';
import type { CaseContext } from './case-context.ts';
import type { CaseReasoning } from './case-reasoning.ts';

/**
 * What a case's log adds up to at one revision: where it stands, what is thought of it, and what a view is made of beside
 * labels and times. Plain data that survives JSON; a cache that the log can give again.
 */
export interface CaseStep {
  /** Entries of the log that it holds. */
  readonly revision: number;
  readonly moment: CaseMoment;
  readonly noPlaceFor: readonly NoPlaceFor[];
  readonly reasoning: CaseReasoning;
  /** Every cause with its probability, most probable first. */
  readonly ranking: Ranking;
  /** The ranking before what is known last changed; null before it did. */
  readonly previous: Ranking | null;
  /** Figures of the remedy's steps that were worked out for this spool when it was chosen, by placeholder. */
  readonly workedOut: WorkedOut;
}

export type Ranking = readonly (readonly [cause: string, probability: number])[];

/** What a step is made under, beside the guide. */
export interface AroundCase {
  readonly costs: ShopCosts | null;
  /** The spool on the machine, where drying it may have to be worked out. */
  readonly spool: Omit<SpoolParts, 'knowledge' | 'question'> | null;
}

/** Checks kept: somewhat more than a view shows. */
const KEPT_CHECKS = 48;

/** Takes from the reasoning what is kept; `isShown` says which candidates keep their reasons. */
export function keptOf(
  reasoning: CaseReasoning,
  isShown: (cause: string, rank: number) => boolean,
): { readonly reasoning: CaseReasoning; readonly ranking: Ranking } {
  return {
    reasoning: {
      ...reasoning,
      candidates: reasoning.candidates.filter(({ cause }, rank) => isShown(cause, rank)),
      checks: reasoning.checks.slice(0, KEPT_CHECKS),
    },
    ranking: reasoning.candidates.map(({ cause, probability }) => [cause, probability] as const),
  };
}

/** What the ranking follows from, and what shows that it moved. */
export function isSameKnowing(a: CaseContext, b: CaseContext): boolean {
  const known = ({ findings, conditions, tried }: CaseContext) => [findings, conditions, tried];
  return isSame(known(a), known(b));
}

/** Everything of a context that the reasoning looks at: where it is the same, so is what is thought. */
export function isSameToReason(a: CaseContext, b: CaseContext): boolean {
  const seen = (context: CaseContext) => [
    context.intake?.complaints,
    context.conditions,
    // In their order: the last finding tells what the machine is doing.
    Object.entries(context.findings),
    context.seenAfterTries,
    context.notTellable,
    context.skipped,
    context.tried,
    context.triedBefore,
    context.notDoable,
    context.dangerSigns,
    context.takenOverBy,
  ];
  return isSame(seen(a), seen(b));
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
