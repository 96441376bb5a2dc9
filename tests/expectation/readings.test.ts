import { describe, expect, it } from 'vitest';
import { isNightly } from '../nightly.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { agreement, heldOut, readReadings, unknownIn } from './readings.ts';

// Judgement of language models in the role of a lead (see expectations/readings/README.md): how near the network is to such a
// lead, not how often it is right.
const knowledge = shippedKnowledge();
const readings = readReadings();
/** By day every third of those held out. */
const looked = heldOut(readings).filter((_, index) => isNightly || index % 3 === 0);

describe('what readers make of whole reports', () => {
  it('names only what the guide knows or knew', () => {
    expect(readings.length).toBeGreaterThan(4700);
    expect([...new Set(readings.flatMap((one) => unknownIn(knowledge, one)))]).toEqual([]);
  });

  it('is what the network makes of them, as often as measured on those it was not fitted to', () => {
    const { first, firstThree } = agreement(knowledge, looked);
    expect(first).toBeGreaterThan(0.55);
    expect(firstThree).toBeGreaterThan(0.75);
  }, 240_000);
});
