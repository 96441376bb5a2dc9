import { describe, expect, it } from 'vitest';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();

function problemAfter(machine: string | null) {
  const looked = [...knowledge.observations.values()].find((one) => one.check.machine === machine);
  const context: CaseContext = {
    ...emptyContext,
    findings: looked ? { [looked.id]: knowledge.levelsOf(looked.id)[0] ?? '' } : {},
  };
  return caseProblem(knowledge, context);
}

/** Minutes that a check in this state of the machine costs beside its own. */
function preparing(machine: string, after: string | null): number {
  const { preparations, prepared } = problemAfter(after);
  return prepared.has(machine) ? 0 : (preparations.get(machine) ?? 0);
}

describe('what state of the machine a check waits for', () => {
  it('is made ready once: after something hot the next hot check is cheap', () => {
    expect(preparing('hot', 'any')).toBeGreaterThan(0);
    expect(preparing('hot', 'hot')).toBe(0);
    expect(preparing('hot', 'printing')).toBe(0);
  });

  it('excludes its contrary: after something hot a cold check waits for the cooling', () => {
    expect(preparing('cold', null)).toBe(0);
    expect(preparing('cold', 'hot')).toBeGreaterThan(0);
    expect(preparing('off', 'printing')).toBeGreaterThan(0);
  });
});
