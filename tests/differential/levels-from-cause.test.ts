import { describe, expect, it } from 'vitest';
import { levelsFromCauseAlone } from '../../src-core/differential/levels-from-cause.ts';
import type { GraphLink, GraphModel } from '../../src-core/inference/index.ts';

describe('what one cause alone brings about', () => {
  const graph: GraphModel = {
    causes: [
      { id: 'a', prior: 0.1 },
      { id: 'b', prior: 0.1 },
    ],
    mechanisms: [{ id: 'm', leak: 0.1, links: [{ cause: 0, probability: 0.9 }] }],
    observations: [
      { id: 'seen', leak: [0.95, 0.05], links: [fromMechanism([0.2, 0.8])] },
      {
        id: 'graded',
        leak: [1, 0, 0],
        links: [fromMechanism([0.2, 0.3, 0.5]), { from: { kind: 'cause', index: 1 }, levels: [0.5, 0.5, 0] }],
      },
      { id: 'account', leak: [1, 0], links: [], accountLevels: [[0.3, 0.7]] },
    ],
  };

  it.each([
    // The mechanism goes with 1 - 0.9 * 0.1 = 0.91 under a, with its leak 0.1 under b.
    [0, 0, [0.95 * (1 - 0.91 * 0.8), 1 - 0.95 * (1 - 0.91 * 0.8)]],
    [1, 0, [0.95 * 0.92, 1 - 0.95 * 0.92]],
    [0, 1, [1 - 0.91 * 0.8, 0.91 * 0.3, 0.91 * 0.5]],
    // Lowest only if both stay silent, highest only by the mechanism.
    [1, 1, [0.92 * 0.5, 0.95 - 0.92 * 0.5, 0.05]],
    [0, 2, [0.3, 0.7]],
    [1, 2, [1, 0]],
    // With nothing of the guide at work: the mechanism's own leak, and the observation's.
    [null, 0, [0.95 * 0.92, 1 - 0.95 * 0.92]],
    [null, 1, [0.92, 0.03, 0.05]],
  ])('cause %s on observation %d', (cause, observation, expected) => {
    const levels = levelsFromCauseAlone(graph, cause)(observation);
    expect(levels).toHaveLength(expected.length);
    expected.forEach((probability, level) => expect(levels[level]).toBeCloseTo(probability, 12));
  });
});

function fromMechanism(levels: readonly number[]): GraphLink {
  return { from: { kind: 'mechanism', index: 0 }, levels };
}
