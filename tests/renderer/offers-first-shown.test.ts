import { expect, it } from 'vitest';
import type { CaseView } from '../../src-core/contract/case-view.ts';
import { offersFirstShown } from '../../src-renderer/screens/case/remedies/offers-first-shown.ts';

const offers = (chances: readonly number[]) =>
  chances.map((repairProbability, at) => ({
    id: `r${at}`,
    repairProbability,
  })) as unknown as CaseView['remedies'];

it('leaves a quick remedy that hardly ever cures to those who ask for more', () => {
  const shown = offersFirstShown(offers([0.53, 0.25, 0.8, 0.004, 0.1, 0.3]));
  expect(shown.map(({ id }) => id)).toEqual(['r0', 'r1', 'r2', 'r4']);
});

it('shows none where none is likely: they stand behind "more"', () => {
  expect(offersFirstShown(offers([0.01, 0.001]))).toEqual([]);
});
