import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';

/** Every id of the guide with what an outside tool needs to use it. */
export function knowledgeList(knowledge: Knowledge) {
  return {
    observations: [...knowledge.observations.values()].map((one) => ({
      id: one.id,
      label: one.label,
      kind: one.kind,
      place: one.place,
      values: knowledge.levelsOf(one.id),
      ...(one.grades ? { grades: one.grades.map((grade) => grade.id) } : {}),
      ...(one.measure
        ? { range: { min: one.measure.min, max: one.measure.max, unit: one.measure.unit } }
        : {}),
      minutes: one.check.minutes,
    })),
    causes: [...knowledge.causes.values()].map(({ id, label, family }) => ({ id, label, kind: family })),
    mechanisms: [...knowledge.mechanisms.values()].map(({ id, label }) => ({ id, label })),
    remedies: [...knowledge.remedies.values()].map((one) => ({
      id: one.id,
      label: one.label,
      kind: one.family,
      removes: one.removes.map(({ cause }) => cause),
    })),
    materials: [...knowledge.materials.values()].map(({ id, label, kind }) => ({ id, label, kind })),
    practices: [...knowledge.practices.values()].map(({ id, label }) => ({ id, label })),
    conditions: [...knowledge.conditions.values()].map((one) => ({
      id: one.id,
      label: one.label,
      kind: one.number ? 'number' : 'choice',
      ...(one.values ? { values: one.values.map((value) => value.id) } : {}),
      ...(one.number ? { range: one.number } : {}),
    })),
  };
}
