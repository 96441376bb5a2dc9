import { expect, it } from 'vitest';
import { nextStep } from '../../src-core/planning/next-step.ts';
import { cheapestBeginning, randomSmallCase } from './policies.ts';

const MARGIN_MINUTES = 2;
const INSTANCES = 1000;

/*
 * Of remedies that cost the same within the margin the one that most probably helps is shown first. A check has to be
 * compared with the cheapest all the same: against a dearer one it would seem to save minutes that nobody has to spend.
 */
it('B3: proposes no check where the cheapest remedy at once costs the same within the margin', () => {
  let proposed = 0;
  let isDearerChosen = 0;
  const wrong: string[] = [];
  for (let seed = 1; seed <= INSTANCES; seed++) {
    const small = randomSmallCase(seed);
    const { best, act, remedies } = nextStep(small.problem, small.checks, {
      leastSavingMinutes: MARGIN_MINUTES,
    });
    if (act.kind === 'remedy' && act.remedy !== remedies[0]?.remedy) isDearerChosen++;
    if (best.kind !== 'check') continue;
    proposed++;
    const saved = cheapestBeginning(small, 'acting') - cheapestBeginning(small, { check: best.check });
    if (saved < MARGIN_MINUTES - 1e-9) wrong.push(`seed ${seed}: saves ${saved.toFixed(2)} min`);
  }
  expect(wrong).toEqual([]);
  // Both happened often enough for the comparison to mean something.
  expect(proposed).toBeGreaterThan(INSTANCES / 20);
  expect(isDearerChosen).toBeGreaterThan(INSTANCES / 50);
}, 600_000);
