import type { GraphEvidence } from '../inference/index.ts';
import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding, likelihoodOfFinding } from './finding-level.ts';

type Findings = Readonly<Record<string, string | number>>;

/** A case's findings as the network takes them, in the order they were made; what a known condition says comes last. */
export function evidenceOf(
  knowledge: Knowledge,
  findings: Findings,
  conditions: Conditions = {},
): GraphEvidence[] {
  const found = Object.entries(findings).flatMap(([id, value]): GraphEvidence[] => {
    const observation = knowledge.observationIndex.get(id);
    if (observation === undefined) return [];
    const likelihood = likelihoodOfFinding(knowledge, id, value);
    if (likelihood) return [{ observation, kind: 'likelihood', likelihood }];
    const level = levelOfFinding(knowledge, id, value);
    return level < 0 ? [] : [{ observation, kind: 'level', level }];
  });
  return [...found, ...saidByConditions(knowledge, findings, conditions)];
}

/** "Last change: nozzle" and "began after the nozzle was changed" are one piece of evidence: whichever is known. */
function saidByConditions(knowledge: Knowledge, findings: Findings, conditions: Conditions): GraphEvidence[] {
  return [...knowledge.facetTables.values()].flatMap(({ id, saidBy }): GraphEvidence[] => {
    const observation = knowledge.observationIndex.get(id);
    if (!saidBy || observation === undefined || findings[id] !== undefined) return [];
    const value = conditions[saidBy.condition];
    return typeof value === 'string' && saidBy.values.includes(value)
      ? [{ observation, kind: 'level', level: 1 }]
      : [];
  });
}

/**
 * Indices of what is complained of, in the guide's order whatever the order of naming: what was named and is still found
 * present. Empty when nothing named is present.
 */
export function complaintsOf(
  knowledge: Knowledge,
  complaints: readonly { readonly observation: string }[],
  findings: Findings,
): number[] {
  const present = complaints.flatMap(({ observation }) => {
    const index = knowledge.observationIndex.get(observation);
    const value = findings[observation];
    if (index === undefined || value === undefined) return [];
    const isThere = levelOfFinding(knowledge, observation, value) > 0 && value !== 'probably';
    return isThere && value !== 'sometimes' ? [index] : [];
  });
  return [...new Set(present)].sort((a, b) => a - b);
}
