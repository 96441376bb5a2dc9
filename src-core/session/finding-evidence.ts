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
  complaints: readonly number[] = [],
): GraphEvidence[] {
  const found = Object.entries(findings).flatMap(([id, value]): GraphEvidence[] => {
    const observation = knowledge.observationIndex.get(id);
    if (observation === undefined) return [];
    const likelihood = likelihoodOfFinding(knowledge, id, value);
    // What somebody complains of is there, however carefully it was put.
    const isComplaint = complaints.includes(observation);
    if (likelihood && isComplaint)
      return [{ observation, kind: 'likelihood', likelihood: [0, ...likelihood.slice(1)] }];
    if (likelihood) return [{ observation, kind: 'likelihood', likelihood }];
    const level = levelOfFinding(knowledge, id, value);
    return level < 0 ? [] : [{ observation, kind: 'level', level }];
  });
  return softened(knowledge, [...found, ...saidByConditions(knowledge, findings, conditions)]);
}

/**
 * The evidence without unspecific complaints ("print fails") that gave way to a telling one: they would only weigh by which causes
 * readers thought of. `complaints` as `complaintsOf` gives them.
 */
export function withoutGivenWay(
  knowledge: Knowledge,
  evidence: readonly GraphEvidence[],
  complaints: readonly number[],
): readonly GraphEvidence[] {
  if (complaints.length === 0) return evidence;
  return evidence.filter(({ observation }) => {
    const id = knowledge.graph.observations[observation]?.id ?? '';
    return complaints.includes(observation) || !knowledge.observations.get(id)?.unspecific;
  });
}

/** Whether a finding says that something is there, rather than that it is not: for sure, or probably. */
export function speaksFor(finding: GraphEvidence): boolean {
  return finding.kind === 'level'
    ? finding.level > 0
    : (finding.likelihood[1] ?? 0) > (finding.likelihood[0] ?? 0);
}

/** What a cause that does not show a statement keeps of its likelihood when there are others of the same kind. */
const KEPT = 0.08;

/**
 * Several general statements of one kind (of the place, of the course) say much the same: "one side", "one corner", "always that
 * spot". Together they count for less than each by itself would. Our own rule. What is told by one cause only, and what was
 * compared by trying, stands by itself.
 */
function softened(knowledge: Knowledge, evidence: readonly GraphEvidence[]): GraphEvidence[] {
  const groupOf = (finding: GraphEvidence) => {
    const id = knowledge.graph.observations[finding.observation]?.id ?? '';
    const observation = knowledge.observations.get(id);
    const isGeneral = observation?.kind === 'pattern' && knowledge.facetTables.has(id);
    return isGeneral && finding.kind === 'level' && finding.level === 1
      ? (observation.group ?? 'pattern')
      : null;
  };
  const counts = new Map<string, number>();
  for (const group of evidence.map(groupOf)) if (group) counts.set(group, (counts.get(group) ?? 0) + 1);
  return evidence.map((finding) => {
    const group = groupOf(finding);
    const count = group === null ? 1 : (counts.get(group) ?? 1);
    if (count < 2) return finding;
    const levels = knowledge.graph.observations[finding.observation]?.leak.length ?? 2;
    return {
      observation: finding.observation,
      kind: 'likelihood',
      likelihood: Array.from({ length: levels }, (_, level) => (level === 0 ? KEPT : 1)),
    };
  });
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
    return levelOfFinding(knowledge, observation, value) > 0 ? [index] : [];
  });
  const unspecific = new Set(
    present.filter((index) => {
      const id = knowledge.graph.observations[index]?.id ?? '';
      return knowledge.observations.get(id)?.unspecific;
    }),
  );
  // What says little by itself gives way to what says more.
  const telling = present.filter((index) => !unspecific.has(index));
  return [...new Set(telling.length > 0 ? telling : present)].sort((a, b) => a - b);
}
