import type { Knowledge } from '../knowledge/knowledge.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import type { Remedy } from '../knowledge/schema.ts';
import type { TriedInCase } from './case-context.ts';

/** A remedy carried out doubtfully took away half as often. Our own estimate, as are the next two. */
const DOUBTFUL_SHARE = 0.5;
/** One small step of a setting reaches the right value a third as often. */
const SMALL_STEP_SHARE = 0.35;
/** What is left undone is halved where the whole range was gone through, or a part came from a machine that prints well. */
const LEFT_UNDONE = 0.5;

/**
 * Chance (0-1) that a remedy, as it was tried, took a cause away.
 *
 * A part of the same kind and make takes away wear and damage of the old one, and leaves what is wrong with its design,
 * make or fit (`withSameKind`). What nobody said leaves the guide's own chance.
 */
export function chanceInTry(
  { chance, withSameKind }: Remedy['removes'][number],
  { done, with: part, reach }: Pick<TriedInCase, 'done' | 'with' | 'reach'>,
): number {
  const plain = strengthProbability(part === 'same-kind' ? (withSameKind ?? chance) : chance);
  const isThorough = reach === 'whole-range' || part === 'from-a-good-machine';
  const reached = isThorough ? 1 - LEFT_UNDONE * (1 - plain) : plain;
  return (
    reached * (done === 'doubtful' ? DOUBTFUL_SHARE : 1) * (reach === 'one-small-step' ? SMALL_STEP_SHARE : 1)
  );
}

/**
 * A try with the part that went in where only a statement of the case tells it: "a new nozzle of the same kind is no better" says
 * which nozzle the change of nozzle put in. What was said with the try itself stands.
 */
export function withSaidPart(
  knowledge: Knowledge,
  findings: Readonly<Record<string, string | number>>,
  tried: TriedInCase,
): TriedInCase {
  if (tried.with !== undefined) return tried;
  const isSaid = Object.entries(findings).some(
    ([id, value]) =>
      value === 'present' && knowledge.observations.get(id)?.saysSameKind.includes(tried.remedy),
  );
  return isSaid ? { ...tried, with: 'same-kind' } : tried;
}
