import { setImmediate } from 'node:timers/promises';
import { guideUse, type KeptCase } from '../../../src-core/learning/guide-use.ts';
import { listNewestClosed, readKeptCases } from '../../casebook/kept-case.repository.ts';
import type { Handler } from '../dispatcher.ts';

/** As many cases as a year or two of a busy shop: older ones say how an older guide did. */
const MOST_CASES = 2000;

export const leadGuideUse: Handler<'lead:guide-use'> = async ({ casebook, knowledge }) => {
  const { caseIds, isMore, isDemo } = await listNewestClosed(casebook.db, MOST_CASES);
  const cases: KeptCase[] = [];
  for await (const lot of readKeptCases(casebook.db, caseIds)) {
    cases.push(...lot);
    await setImmediate();
  }
  return { cases: cases.length, isMore, isDemo, ...guideUse(knowledge, cases) };
};
