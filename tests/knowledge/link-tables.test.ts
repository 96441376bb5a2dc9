import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAUSE_NOT_IN_GUIDE } from '../../src-core/knowledge/compile.ts';
import { bruteForce } from '../inference/brute-force.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';

const unknown = cause(CAUSE_NOT_IN_GUIDE, {}, { showsAnyComplaint: { strength: 0.07, source: 'estimate' } });

function guideWith(
  table: { readonly from: Readonly<Record<string, number>>; readonly leak?: number },
  drive: number,
  shown: number,
) {
  return smallGuide({
    observations: [observation('thin-lines', 0.02, 1), observation('other', 0.02, 1)],
    mechanisms: [
      {
        id: 'slip',
        label: 'Slip',
        formerly: [],
        physics: 'It slips.',
        leak: { strength: 0.000001, source: 'estimate' },
        shows: [{ to: 'thin-lines', strength: shown, source: 'estimate' }],
      },
    ],
    causes: [
      unknown,
      cause(
        'worn',
        { 'thin-lines': 0.123, other: 0.4 },
        { drives: [{ to: 'slip', strength: drive, source: 'estimate' }] },
      ),
      cause('slack', { 'thin-lines': 0.456 }),
    ],
    linkTables: [{ id: 'thin-lines', source: 'estimate', ...table }],
  });
}

/** How often thin lines are seen with one cause only at work, by summing over everything. */
function seenWithOnly({ graph }: ReturnType<typeof guideWith>, id: string): number {
  const priors = graph.causes.map((one) => (one.id === id ? 1 : 0));
  return bruteForce(graph, priors, []).levels[0]?.[1] ?? NaN;
}

describe('a table of how often each cause alone brings an observation about', () => {
  it('is what comes out for the cause, whatever its mechanisms bring already', () => {
    const chance = fc.double({ min: 0.01, max: 0.98, noNaN: true });
    fc.assert(
      fc.property(chance, chance, chance, (whole, drive, shown) => {
        const seen = seenWithOnly(guideWith({ from: { worn: whole }, leak: 1e-9 }, drive, shown), 'worn');
        // Where the mechanism alone brings more, that stands: a link cannot take any of it back.
        expect(seen).toBeCloseTo(Math.max(whole, drive * shown), 5);
      }),
      { numRuns: 100, seed: 5 },
    );
  });

  it('holds for what speaks of the cause that accounts for the complaint, also where the cause itself says nothing of it', () => {
    const guide = smallGuide({
      observations: [
        observation('thin-lines', 0.02, 1),
        observation('dims', 0.02, 1, { complaint: false, kind: 'pattern' }),
      ],
      causes: [unknown, cause('weak-supply', { 'thin-lines': 0.3 }), cause('slack', { 'thin-lines': 0.4 })],
      linkTables: [{ id: 'dims', source: 'estimate', from: { 'weak-supply': 0.5 }, leak: 0.01 }],
    });
    const { accountLevels } = guide.graph.observations[guide.observationIndex.get('dims') ?? -1] ?? {};
    const seenWith = (id: string) => 1 - (accountLevels?.[guide.causeIndex.get(id) ?? -1]?.[0] ?? NaN);
    expect(seenWith('weak-supply')).toBeCloseTo(0.5, 9);
    expect(seenWith('slack')).toBeLessThan(0.05);
  });

  it('stands in the place of what causes say themselves, named in it or not', () => {
    const guide = guideWith({ from: { worn: 0.6 }, leak: 1e-9 }, 0.1, 0.1);
    expect(seenWithOnly(guide, 'slack')).toBeCloseTo(0, 5);
    expect(guide.causes.get('slack')?.shows).toEqual([]);
    // Of other observations causes speak for themselves still.
    expect(
      guide.causes
        .get('worn')
        ?.shows.map(({ to }) => to)
        .sort(),
    ).toEqual(['other', 'thin-lines']);
  });

  it('has its own figure for what is met with nothing behind it', () => {
    expect(
      guideWith({ from: { worn: 0.6 }, leak: 0.11 }, 0.1, 0.1).graph.observations[0]?.leak[1],
    ).toBeCloseTo(0.11, 12);
    expect(guideWith({ from: { worn: 0.6 } }, 0.1, 0.1).graph.observations[0]?.leak[1]).toBeCloseTo(0.02, 12);
  });

  it('is what a reader of the cause finds there: the share beside its mechanisms', () => {
    const guide = guideWith({ from: { worn: 0.6, slack: 0.3 } }, 0.5, 0.4);
    const shown = (id: string) => guide.causes.get(id)?.shows.find(({ to }) => to === 'thin-lines')?.strength;
    // 1 - 0.6 = (1 - 0.5 x 0.4) (1 - own), so own is 0.5.
    expect(shown('worn')).toBeCloseTo(0.5, 12);
    expect(shown('slack')).toBeCloseTo(0.3, 12);
  });
});

describe('the cause that no guide knows', () => {
  it('may show any complaint, and nothing that is no complaint', () => {
    const guide = smallGuide({
      observations: [
        observation('ugly', 0.02, 1),
        observation('dust', 0.02, 1, { complaint: false }),
        observation('sagging', 0.02, 1, {
          grades: ['none', 'slight', 'heavy'].map((id) => ({ id, label: id })),
          leak: { strength: { slight: 0.02 }, source: 'estimate' },
        }),
      ],
      causes: [unknown, cause('worn', { dust: 0.5, ugly: 0.5 })],
    });
    const linksOf = (at: number) =>
      guide.graph.observations[at]?.links.filter(({ from }) => from.kind === 'cause' && from.index === 0) ??
      [];
    expect(linksOf(0).map(({ levels }) => levels[1])).toEqual([0.07]);
    expect(linksOf(1)).toEqual([]);
    // How bad it would be nobody knows: each grade alike.
    expect(linksOf(2)[0]?.levels.map((p) => +p.toFixed(12))).toEqual([0.93, 0.035, 0.035]);
  });
});
