import { expect, it } from 'vitest';
import type { NextStepOptions } from '../../src-core/planning/next-step.ts';
import { isNightly } from '../nightly.ts';
import { cheapestPolicy, plannersPolicy, randomSmallCase } from './policies.ts';

const INSTANCES = isNightly ? 2000 : 200;
/** For each of the three lesser searches. */
const INSTANCES_OF_LESSER = isNightly ? 500 : 200;

const cheapest = new Map<number, number>();
/** Minutes of the best of all policies for the case of a seed; worked out once for all searches held against it. */
function cheapestFor(seed: number): number {
  const known = cheapest.get(seed) ?? cheapestPolicy(randomSmallCase(seed));
  cheapest.set(seed, known);
  return known;
}

/**
 * The planner's policy against the best of all policies (dynamic programming over every sequence of checks, answers and
 * remedies) on small cases. Independent of the planner: `policies.ts` knows only the definition.
 */
const percent = (gap: number) => `${(100 * gap).toFixed(2)} %`;

function gaps(options: NextStepOptions, count: number) {
  const found = Array.from({ length: count }, (_, index) => {
    const small = randomSmallCase(index + 1);
    return plannersPolicy(small, options) / cheapestFor(index + 1) - 1;
  }).sort((a, b) => a - b);
  const at = (share: number) => found[Math.min(count - 1, Math.floor(share * count))] ?? NaN;
  const mean = found.reduce((sum, gap) => sum + gap, 0) / count;
  console.log(
    `gap to the best policy over ${count} with ${JSON.stringify(options)}: mean ${percent(mean)}, median ${percent(at(0.5))}, 90 % ${percent(at(0.9))}, 99 % ${percent(at(0.99))}, largest ${percent(at(1))}`,
  );
  return { least: found[0] ?? NaN, mean, at };
}

it(`comes within 2 % of the best of all policies on each of ${INSTANCES} random small cases, and never below it`, () => {
  const { least, mean, at } = gaps({}, INSTANCES);
  expect(least).toBeGreaterThan(-1e-9);
  expect(mean).toBeLessThan(0.0005);
  expect(at(1)).toBeLessThan(0.02);
}, 1_200_000);

it('comes near it where the search does not hold all remedies and checks, and each further look earns its keep', () => {
  // Room for one check beside all remedies, or for none: what is left is two steps, and one.
  const part = gaps({ policyStates: 64 }, INSTANCES_OF_LESSER);
  const twoSteps = gaps({ policyStates: 0 }, INSTANCES_OF_LESSER);
  const oneStep = gaps({ policyStates: 0, twoStepLookAheads: 0 }, INSTANCES_OF_LESSER);
  expect(part.least).toBeGreaterThan(-1e-9);
  expect(part.mean).toBeLessThanOrEqual(twoSteps.mean + 1e-12);
  expect(twoSteps.mean).toBeLessThan(0.002);
  // The tail of a small sample is mostly chance: further out is asked of the large one.
  expect(twoSteps.at(isNightly ? 0.98 : 0.95)).toBeLessThan(0.02);
  expect(oneStep.mean).toBeGreaterThan(2 * twoSteps.mean);
}, 1_200_000);
