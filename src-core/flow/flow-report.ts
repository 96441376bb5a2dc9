import type { FlowQuestion, FlowSheet } from '../contract/flow-sheet.ts';
import { cautionsOf } from '../knowledge/cautions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { flowSheet } from './flow-sheet.ts';

/**
 * The flow sheet with what this guide adds: the polymer's density, and what can hurt somebody who does as the sheet suggests.
 * Throws a `RangeError` as `flowSheet` does.
 */
export function reportOnFlow(
  { water, cautions, melting }: Pick<Knowledge, 'water' | 'cautions' | 'melting'>,
  question: FlowQuestion,
): FlowSheet {
  const { polymer } = question;
  const density = polymer === null ? undefined : water.get(polymer)?.densityKgPerM3.value;
  const sheet = flowSheet(question, density ?? null, melting);
  const wider = sheet.bridging !== null && sheet.bridging.level !== 'low';
  const hotterC = (question.nozzleC ?? 0) + (sheet.hotter?.byC ?? 0);
  const isNearLinerLimit = sheet.hotter !== null && hotterC >= melting.linerWatchedFromC.value;
  const wanted = [
    ...(isNearLinerLimit ? [{ id: 'liner-overheats', about: 'heat' as const }] : []),
    ...(wider ? [{ id: 'hot-parts', about: 'nozzle' as const }] : []),
  ];
  return {
    ...sheet,
    cautions: wanted.flatMap(({ id, about }) =>
      cautionsOf({ cautions }, [id]).map((caution) => ({ ...caution, about })),
    ),
  };
}
