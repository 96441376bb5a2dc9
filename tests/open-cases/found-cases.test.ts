import { expect, it } from 'vitest';
import { readCaseFile } from '../../src-main/command/case-file.ts';
import { isNightly } from '../nightly.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { answerTo, readFoundCases } from './open-cases.ts';
import { scoreOf } from './score.ts';

const knowledge = shippedKnowledge();
const found = readFoundCases();

it('the found cases are 223, each with its own id, in words and causes that the guide knows or knew', () => {
  expect(new Set(found.map(({ id }) => id)).size).toBe(223);
  for (const { id, conditions, findings, tried, accepted } of found) {
    const read = readCaseFile(JSON.stringify({ conditions, findings, tried }), id, knowledge);
    expect(read.ok ? [] : read.faults).toEqual([]);
    for (const cause of accepted)
      expect(knowledge.causes.has(cause) || knowledge.former.causes.has(cause), `${id}: ${cause}`).toBe(true);
  }
});

// Far below what is asked (70 and 88 %). A lead makes 28 and 50 % of the same ticks, and 57 and 73 % of the plain words (parts 4 and 5):
// most is lost before anything is concluded. Measured with 330 causes: first 27 %, first three 42 %. It holds that no change of the
// guide makes it worse unseen.
if (isNightly)
  it('of those that nobody mended the guide after, a quarter and two fifths are found', () => {
    const { first, firstThree } = scoreOf(readFoundCases([4, 5, 6]).map((one) => answerTo(knowledge, one)));
    expect(first).toBeGreaterThanOrEqual(0.23);
    expect(firstThree).toBeGreaterThanOrEqual(0.38);
  }, 600_000);
