import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { CaseContext } from '../../src-core/session/case-context.ts';
import { emptyContext } from '../../src-core/session/case-machine.ts';
import { levelOfFinding } from '../../src-core/session/finding-level.ts';
import { reasonAbout } from '../../src-core/session/reason-about.ts';
import { causeLabel, observationLabel, remedyLabel } from '../../src-core/session/wording.ts';
import type { CaseFile } from './case-file.ts';

/** The answer to a case file, as `diagnose --json` prints it. Probabilities 0–1, weights in decibans, costs in minutes. */
export interface Diagnosis {
  /** Whether every finding is in the sums. */
  readonly exact: boolean;
  /** Findings left out of them, because sums over all would be too large. */
  readonly setAside: readonly string[];
  readonly candidates: readonly {
    readonly cause: string;
    readonly label: string;
    readonly probability: number;
    readonly because: readonly { readonly finding: string; readonly decibans: number }[];
  }[];
  readonly conflict: number;
  readonly next: {
    readonly kind: string;
    readonly id: string;
    readonly minutes: number;
    readonly expectedCostOfRepair: number;
  };
  readonly remedies: readonly {
    readonly id: string;
    readonly repairProbability: number;
    readonly minutes: number;
  }[];
}

/**
 * Reasons about a case file. The complaint is whatever was found that can be one, otherwise everything found present but
 * patterns and comparisons: these say what accounts for a complaint and are none themselves.
 */
export function diagnose(knowledge: Knowledge, { conditions, findings, tried }: CaseFile): Diagnosis {
  const reasoning = reasonAbout(knowledge, contextOfCase(knowledge, { conditions, findings, tried }));
  return {
    exact: reasoning.setAside.length === 0,
    setAside: reasoning.setAside,
    candidates: reasoning.candidates.map(({ cause, probability, because }) => ({
      cause,
      label: causeLabel(knowledge, cause),
      probability,
      because,
    })),
    conflict: reasoning.conflict.bits,
    next: reasoning.next,
    remedies: reasoning.remedies.map(({ remedy, repairProbability, minutes }) => ({
      id: remedy,
      repairProbability,
      minutes,
    })),
  };
}

/** The same for people: the first candidates with their reasons, the next step and the remedies. */
export function diagnosisText(knowledge: Knowledge, diagnosis: Diagnosis): string {
  const percent = (probability: number) =>
    `${(probability * 100).toFixed(probability < 0.1 ? 1 : 0)} %`.padStart(7);
  const lines = diagnosis.candidates.slice(0, 8).flatMap((candidate) => {
    const because = candidate.because
      .slice(0, 4)
      .map(
        ({ finding, decibans }) =>
          `${decibans >= 0 ? '+' : ''}${decibans.toFixed(1)} ${observationLabel(knowledge, finding)}`,
      );
    return [
      `${percent(candidate.probability)}  ${candidate.label}`,
      ...(because.length > 0 ? [`         ${because.join('; ')}`] : []),
    ];
  });
  const { next } = diagnosis;
  const nextLabel =
    next.kind === 'check'
      ? observationLabel(knowledge, next.id)
      : next.kind === 'remedy'
        ? remedyLabel(knowledge, next.id)
        : next.id;
  const remedies = diagnosis.remedies
    .slice(0, 5)
    .map(
      ({ id, repairProbability, minutes }) =>
        `${percent(repairProbability)}  ${remedyLabel(knowledge, id)} (${Math.round(minutes)} min)`,
    );
  return [
    'Likely causes',
    ...lines,
    '',
    `Next: ${next.kind} - ${nextLabel} (${Math.round(next.minutes)} min, about ${Math.round(next.expectedCostOfRepair)} min to a cure)`,
    '',
    'Remedies by chance to cure',
    ...remedies,
  ].join('\n');
}

function speaksOfComplaint(knowledge: Knowledge, id: string): boolean {
  const observation = knowledge.graph.observations[knowledge.observationIndex.get(id) ?? -1];
  return observation?.accountLevels !== undefined;
}

/** The state of a case in which this and no more has been said. */
export function contextOfCase(knowledge: Knowledge, { conditions, findings, tried }: CaseFile): CaseContext {
  const present = Object.entries(findings).filter(([id, value]) => levelOfFinding(knowledge, id, value) > 0);
  const named = present.filter(([id]) => knowledge.observations.get(id)?.complaint);
  const complaints = named.length > 0 ? named : present.filter(([id]) => !speaksOfComplaint(knowledge, id));
  return {
    ...emptyContext,
    intake: {
      printerId: null,
      spoolId: null,
      openedBy: null,
      conditions,
      complaints: complaints.map(([observation, value]) => ({ observation, value })),
      words: '',
    },
    conditions,
    findings,
    tried,
  };
}
