import { describe, expect, it } from 'vitest';
import { statementsByFit, weightsOfComplaints } from '../../src-core/differential/fitting-statements.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { cause, observation, smallGuide } from './small-guide.ts';

const byHand = smallGuide({
  observations: [
    observation('strings', 0.01, 1),
    observation('gaps', 0.01, 1),
    observation('new-spool', 0.01, 1, { group: 'before' }),
    observation('belts-done', 0.01, 1, { group: 'before' }),
    observation('one-axis', 0.01, 1, { group: 'place' }),
  ],
  facetTables: [
    {
      id: 'new-spool',
      given: { 'after.new-spool': 0.8 },
      otherwise: 0.05,
      notStated: 0.2,
      source: 'estimate',
    },
  ],
  causes: [
    cause('wet', { strings: 0.9 }, { facets: { after: { 'new-spool': 'mostly' } } }),
    cause('loose-belt', { gaps: 0.9, 'belts-done': 0.6 }, { facets: { after: { 'motion-work': 'mostly' } } }),
  ],
});

const inOrderFor = (complaints: readonly string[]) =>
  statementsByFit(byHand, weightsOfComplaints(byHand, complaints));

describe('statements that fit a complaint', () => {
  it('come first by what its causes show, by facets or by a link of their own', () => {
    expect(inOrderFor(['strings'])[0]).toBe('new-spool');
    expect(inOrderFor(['gaps'])[0]).toBe('belts-done');
  });

  it('keep the guide’s order while nothing is complained of', () => {
    expect(inOrderFor([])).toEqual(['new-spool', 'belts-done', 'one-axis']);
  });

  it('fit causes that are weighed directly, whatever else the caller names', () => {
    expect(
      statementsByFit(
        byHand,
        new Map([
          ['loose-belt', 0.8],
          ['gone', 0.2],
        ]),
      )[0],
    ).toBe('belts-done');
  });

  it('are all there in the shipped guide', () => {
    const knowledge = shippedKnowledge();
    const grouped = [...knowledge.observations.values()].filter((one) => one.group !== undefined);
    const order = statementsByFit(knowledge, weightsOfComplaints(knowledge, ['stringing']));
    expect(order.toSorted()).toEqual(grouped.map((one) => one.id).toSorted());
    expect(order.length).toBeGreaterThan(200);
  });
});
