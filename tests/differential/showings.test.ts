import { describe, expect, it } from 'vitest';
import { showingsOf } from '../../src-core/differential/showings.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { cause, observation, smallGuide } from './small-guide.ts';

describe('what a cause looks like', () => {
  it('joins the direct way and the way through a mechanism as independent chances', () => {
    const guide = smallGuide({
      observations: [observation('x', 0.01, 1)],
      mechanisms: [
        {
          id: 'm',
          label: 'm',
          formerly: [],
          physics: 'm',
          leak: { strength: 0.01, source: 'estimate' },
          shows: [{ to: 'x', strength: 0.8, source: 'common practice' }],
        },
      ],
      causes: [
        cause('a', { x: 0.25 }, { drives: [{ to: 'm', strength: 'about half', source: 'estimate' }] }),
      ],
    });
    const [showing] = showingsOf(
      cause('a', { x: 0.25 }, { drives: [{ to: 'm', strength: 'about half', source: 'estimate' }] }),
      guide,
    );
    // 1 - (1 - 0.25)(1 - 0.5 · 0.8)
    expect(showing?.chance).toBeCloseTo(0.55, 12);
    expect(showing?.through).toEqual(['m']);
    expect(showing?.sources).toEqual(['estimate', 'common practice']);
  });

  it('agrees with the compiled network for every cause and every sign of the shipped guide', () => {
    const knowledge = shippedKnowledge();
    const causeIds = [...knowledge.causes.keys()];
    const observationIds = [...knowledge.observations.keys()];
    let compared = 0;
    for (const one of knowledge.causes.values()) {
      if (one.showsAnyComplaint) continue;
      const index = causeIds.indexOf(one.id);
      const shown = new Map(showingsOf(one, knowledge).map((each) => [each.observation, each.chance]));
      knowledge.graph.observations.forEach((node, at) => {
        // Bands exclude each other, so two ways to them do not join by a simple product.
        if (node.links.some(({ levels }) => levels.length > 2)) return;
        let miss = 1;
        for (const { from, levels } of node.links) {
          const shows = 1 - (levels[0] ?? 1);
          if (from.kind === 'cause' && from.index === index) miss *= 1 - shows;
          if (from.kind !== 'mechanism') continue;
          const driven = knowledge.graph.mechanisms[from.index]?.links.find((link) => link.cause === index);
          // One chance of being driven for all that a mechanism shows: within one sign the product holds.
          miss *= 1 - (driven?.probability ?? 0) * shows;
        }
        expect(shown.get(observationIds[at] ?? '') ?? 0).toBeCloseTo(1 - miss, 10);
        compared++;
      });
    }
    expect(compared).toBeGreaterThan(1000);
  });
});
