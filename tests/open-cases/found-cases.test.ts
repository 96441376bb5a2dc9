import { expect, it } from 'vitest';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { isNightly } from '../nightly.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { answerTo, readFoundCases } from './open-cases.ts';
import { scoreOf } from './score.ts';

const knowledge = shippedKnowledge();
const found = readFoundCases();

it('the found cases are 171, each with its own id, in words and causes that the guide knows or knew', () => {
  expect(new Set(found.map(({ id }) => id)).size).toBe(171);
  for (const { id, conditions, findings, tried, accepted } of found) {
    const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), id, knowledge);
    expect(read.ok ? [] : read.faults).toEqual([]);
    for (const cause of accepted)
      expect(knowledge.causes.has(cause) || knowledge.former.causes.has(cause), `${id}: ${cause}`).toBe(true);
  }
});

// Far below what is asked (70 and 88 %), and what a lead makes of the same ticks (34 and 49 %) or of the plain words (52 and 72 %):
// measured with 330 causes, first 21 %, first three 41 %. It holds that no change of the guide makes it worse unseen.
if (isNightly)
  it('of those that nobody mended the guide after, a fifth and two fifths are found', () => {
    const { first, firstThree } = scoreOf(readFoundCases([3, 4, 5]).map((one) => answerTo(knowledge, one)));
    expect(first).toBeGreaterThanOrEqual(0.17);
    expect(firstThree).toBeGreaterThanOrEqual(0.36);
  }, 600_000);
