import type { FileReading } from '../contract/job-report.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { faultOfCondition, faultOfFinding } from '../session/finding-level.ts';
import type { Words } from '../words/message.ts';
import { conditionValueLabel, observationLabel, valueLabel } from '../session/wording.ts';

/** A finding that a file answers, in the guide's words; null where this guide does not ask it or not in this range. */
export function fileFinding(
  knowledge: Knowledge,
  id: string,
  value: string | number,
  because: Words,
): FileReading | null {
  if (faultOfFinding(knowledge, id, value) !== null) return null;
  const label = observationLabel(knowledge, id);
  return { kind: 'finding', id, label, value, valueLabel: valueLabel(knowledge, id, value), because };
}

/** A condition that a file answers, in the guide's words; null where this guide has none or not in this range. */
export function fileCondition(
  knowledge: Knowledge,
  id: string,
  value: string | number,
  because: Words,
): FileReading | null {
  const condition = knowledge.conditions.get(id);
  if (!condition || faultOfCondition(knowledge, id, value) !== null) return null;
  const label = condition.label;
  return {
    kind: 'condition',
    id,
    label,
    value,
    valueLabel: conditionValueLabel(knowledge, id, value),
    because,
  };
}
