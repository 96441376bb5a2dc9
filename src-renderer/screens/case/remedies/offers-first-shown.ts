import type { CaseView } from '../../../../src-core/contract/case-view.ts';

type Offers = CaseView['remedies'];

const FEW = 4;
/** What cures less often than one time in fifty stands with the rest, however quick it is. Our own estimate. */
const WORTH_A_ROW = 0.02;

/** Of the remedies behind the first, in the order they are meant to be done, those that stand there without asking for more. */
export function offersFirstShown(others: Offers): Offers {
  return others.filter(({ repairProbability }) => repairProbability >= WORTH_A_ROW).slice(0, FEW);
}
