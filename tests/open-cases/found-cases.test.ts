import { expect, it } from 'vitest';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { isNightly } from '../nightly.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { answerTo, readFoundCases } from './open-cases.ts';
import { scoreOf } from './score.ts';

const knowledge = shippedKnowledge();
const found = readFoundCases();

it('the found cases are 412, each with its own id, in words and causes that the guide knows or knew', () => {
  expect(new Set(found.map(({ id }) => id)).size).toBe(412);
  for (const { id, conditions, findings, tried, accepted } of found) {
    const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), id, knowledge);
    expect(read.ok ? [] : read.faults).toEqual([]);
    for (const cause of accepted)
      expect(knowledge.causes.has(cause) || knowledge.former.causes.has(cause), `${id}: ${cause}`).toBe(true);
  }
});

// Far below what is asked (70 and 88 %). A lead given the plain words makes 59 and 86 % of part 11. Measured with 348 causes: first 38 %,
// first three 59 %. It holds that no change of the guide makes it worse unseen.
if (isNightly)
  it('of those that nobody mended the guide after, three and five in ten are found', () => {
    const { first, firstThree } = scoreOf(readFoundCases([11]).map((one) => answerTo(knowledge, one)));
    expect(first).toBeGreaterThanOrEqual(0.3);
    expect(firstThree).toBeGreaterThanOrEqual(0.5);
  }, 600_000);
