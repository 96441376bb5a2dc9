import type { GraphEvidence } from '../inference/index.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from './finding-level.ts';

/** A case's findings as the network takes them, in the order they were made. */
export function evidenceOf(
  knowledge: Knowledge,
  findings: Readonly<Record<string, string | number>>,
): GraphEvidence[] {
  return Object.entries(findings).flatMap(([id, value]) => {
    const observation = knowledge.observationIndex.get(id);
    const level = observation === undefined ? -1 : levelOfFinding(knowledge, id, value);
    return observation === undefined || level < 0 ? [] : [{ observation, kind: 'level' as const, level }];
  });
}

/**
 * Index of the main complaint, as a list of one: the first thing named as wrong that is still found present. It is what
 * a remedy has to clear. Several troubles at once are cleared one after the other: asking that all go together would
 * leave no single remedy any chance. Empty when nothing named is present.
 */
export function mainComplaint(
  knowledge: Knowledge,
  complaints: readonly { readonly observation: string }[],
  findings: Readonly<Record<string, string | number>>,
): number[] {
  const present = complaints.flatMap(({ observation }) => {
    const index = knowledge.observationIndex.get(observation);
    const value = findings[observation];
    if (index === undefined || value === undefined) return [];
    return levelOfFinding(knowledge, observation, value) > 0 ? [index] : [];
  });
  return present.slice(0, 1);
}
