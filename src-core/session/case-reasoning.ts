/** What inference and planning say about a case at one moment, in the guide's ids. Sorted most probable or best first. */
export interface CaseReasoning {
  /** Findings (observation ids) left out because the sums over all of them would be too large; nearly always none. */
  readonly setAside: readonly string[];
  /** Of several complaints the one that the plan goes for. */
  readonly mainComplaint: string | null;
  readonly candidates: readonly ReasonedCandidate[];
  /** What else may be wrong without holding the complaint up. */
  readonly background: readonly { readonly cause: string; readonly probability: number }[];
  readonly conflict: { readonly bits: number; readonly suspect: string | null };
  /** Expected minutes to a cure when the best remedies are tried now. */
  readonly expectedCostNow: number;
  readonly next: {
    readonly kind: 'check' | 'remedy' | 'hand-over';
    readonly id: string;
    readonly minutes: number;
    readonly expectedCostOfRepair: number;
  };
  readonly checks: readonly ReasonedCheck[];
  readonly remedies: readonly ReasonedRemedy[];
}

export interface ReasonedCandidate {
  readonly cause: string;
  readonly probability: number;
  readonly because: readonly { readonly finding: string; readonly decibans: number }[];
}

export interface ReasonedCheck {
  readonly observation: string;
  readonly minutes: number;
  /** Minutes saved on average less the minutes it takes. */
  readonly netValueOfInformationMinutes: number;
  readonly expectedCostAfter: number;
}

export interface ReasonedRemedy {
  readonly remedy: string;
  readonly repairProbability: number;
  readonly minutes: number;
}
