import { describe, expect, it } from 'vitest';
import {
  queryGeneral,
  type GeneralNetwork,
  type GeneralVariable,
} from '../../src-core/inference/general/query-general.ts';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { referenceValue } from './reference-record.ts';

interface PosteriorRow {
  readonly evidence: 'none' | Record<string, boolean | 'yes' | 'no'>;
  readonly p_evidence: number;
  readonly posterior: Record<string, number>;
}

/** Two-valued variables; `whenTrue` holds P(true) for each parent state, last parent fastest, false before true. */
function networkOf(
  rows: readonly (readonly [id: string, parents: readonly string[], whenTrue: readonly number[]])[],
) {
  const ids = rows.map(([id]) => id);
  const variables = rows.map(([id, parents, whenTrue]): GeneralVariable => ({
    id,
    states: 2,
    parents: parents.map((parent) => ids.indexOf(parent)),
    table: whenTrue.flatMap((p) => [1 - p, p]),
  }));
  return { ids, network: { variables } satisfies GeneralNetwork };
}

// Tables as in the records; the records write them as prose keys, so they are spelled out once more.
const asia = networkOf([
  ['asia', [], [0.01]],
  ['smoker', [], [0.5]],
  ['tuberculosis', ['asia'], [0.01, 0.05]],
  ['lung_cancer', ['smoker'], [0.01, 0.1]],
  ['bronchitis', ['smoker'], [0.3, 0.6]],
  ['either', ['tuberculosis', 'lung_cancer'], [0, 1, 1, 1]],
  ['xray', ['either'], [0.05, 0.98]],
  ['dyspnoea', ['either', 'bronchitis'], [0.1, 0.8, 0.7, 0.9]],
]);
const alarm = networkOf([
  ['burglary', [], [0.001]],
  ['earthquake', [], [0.002]],
  ['alarm', ['burglary', 'earthquake'], [0.001, 0.29, 0.94, 0.95]],
  ['john_calls', ['alarm'], [0.05, 0.9]],
  ['mary_calls', ['alarm'], [0.01, 0.7]],
]);
const sprinkler = networkOf([
  ['cloudy', [], [0.5]],
  ['sprinkler', ['cloudy'], [0.5, 0.1]],
  ['rain', ['cloudy'], [0.2, 0.8]],
  ['wet', ['sprinkler', 'rain'], [0, 0.9, 0.9, 0.99]],
]);

describe.each([
  ['asia-posteriors (Lauritzen & Spiegelhalter 1988)', 'asia-posteriors', asia],
  ['alarm-posteriors (Pearl 1988; Russell & Norvig 2010)', 'alarm-posteriors', alarm],
  ['sprinkler-posteriors (Murphy 1998)', 'sprinkler-posteriors', sprinkler],
] as const)('queryGeneral on inference.yaml %s', (_, record, { ids, network }) => {
  it.each(referenceValue<PosteriorRow[]>('inference', record))(
    'gives the posteriors for $evidence',
    (row) => {
      const evidence = new Map(
        Object.entries(row.evidence === 'none' ? {} : row.evidence).map(([id, state]) => [
          ids.indexOf(id),
          state === true || state === 'yes' ? 1 : 0,
        ]),
      );
      const found = queryGeneral(network, evidence);
      if (found.kind !== 'ok') throw new Error(found.kind);
      expect(found.evidenceProbability / row.p_evidence).toBeCloseTo(1, 11);
      for (const [id, p] of Object.entries(row.posterior))
        expect(found.posteriors[ids.indexOf(id)]?.[1]).toBeCloseTo(p, 12);
    },
  );
});

describe('values printed in the books', () => {
  const posterior = ({ ids, network }: typeof alarm, id: string, evidence: Record<string, 0 | 1>) => {
    const found = queryGeneral(
      network,
      new Map(Object.entries(evidence).map(([key, state]) => [ids.indexOf(key), state])),
    );
    if (found.kind !== 'ok') throw new Error(found.kind);
    return found.posteriors[ids.indexOf(id)]?.[1] ?? NaN;
  };
  it('alarm-p523 and alarm-more-published (Russell & Norvig 2010)', () => {
    const printed = referenceValue<{ true: number }>('inference', 'alarm-p523');
    const more = referenceValue<Record<string, number>>('inference', 'alarm-more-published');
    const calls = { john_calls: 1, mary_calls: 1 } as const;
    expect(posterior(alarm, 'burglary', calls)).toBeCloseTo(printed.true, 3);
    expect(posterior(alarm, 'burglary', calls)).toBeCloseTo(more['burglary_given_j_m'] ?? NaN, 14);
    const neither = { ...calls, burglary: 0, earthquake: 0 } as const;
    expect(posterior(alarm, 'alarm', neither)).toBeCloseTo(more['alarm_given_notb_note_j_m'] ?? NaN, 14);
    expect(posterior(alarm, 'john_calls', { burglary: 1 })).toBeCloseTo(
      more['john_given_burglary'] ?? NaN,
      14,
    );
  });
  it('asia-bugs-posterior (BUGS Examples 1996)', () => {
    const printed = referenceValue<Record<string, number>>('inference', 'asia-bugs-posterior');
    for (const [id, p] of Object.entries(printed)) {
      expect(Math.abs(posterior(asia, id, { asia: 1, dyspnoea: 1 }) - p)).toBeLessThan(6e-4);
    }
  });
  it('sprinkler-published (Murphy 1998)', () => {
    const printed = referenceValue<Record<string, number>>('inference', 'sprinkler-published');
    expect(posterior(sprinkler, 'sprinkler', { wet: 1 })).toBeCloseTo(printed['P(S|W)'] ?? NaN, 4);
    expect(posterior(sprinkler, 'rain', { wet: 1 })).toBeCloseTo(printed['P(R|W)'] ?? NaN, 4);
    expect(posterior(sprinkler, 'wet', {})).toBeCloseTo(printed['P(W)'] ?? NaN, 4);
    expect(posterior(sprinkler, 'sprinkler', { wet: 1, rain: 1 })).toBeCloseTo(printed['P(S|W,R)'] ?? NaN, 4);
  });
});

describe('the layered engine on what it can express of these networks', () => {
  // Sprinkler's lower half is a noisy-OR with links 0.9 and 0.9 and no leak: P(wet | both) = 0.99.
  it('agrees with queryGeneral on wet grass with independent sprinkler and rain', () => {
    const independent = networkOf([
      ['sprinkler', [], [0.3]],
      ['rain', [], [0.5]],
      ['wet', ['sprinkler', 'rain'], [0, 0.9, 0.9, 0.99]],
    ]);
    const truth = queryGeneral(independent.network, new Map([[2, 1]]));
    const link = (index: number) => ({ from: { kind: 'cause' as const, index }, levels: [1 - 0.9, 0.9] });
    const model: GraphModel = {
      causes: [
        { id: 'sprinkler', prior: 0.3 },
        { id: 'rain', prior: 0.5 },
      ],
      mechanisms: [],
      observations: [{ id: 'wet', leak: [1, 0], links: [link(0), link(1)] }],
    };
    const found = infer(model, [0.3, 0.5], [{ observation: 0, kind: 'level', level: 1 }]);
    if (found.kind !== 'ok' || !found.exact || truth.kind !== 'ok') throw new Error('expected exact answers');
    expect(found.causes[0]).toBeCloseTo(truth.posteriors[0]?.[1] ?? NaN, 13);
    expect(found.causes[1]).toBeCloseTo(truth.posteriors[1]?.[1] ?? NaN, 13);
  });

  // Asia given the smoker and the traveller: three independent diseases, "either" as a mechanism, the x-ray a noisy-OR
  // of it (leak 0.05, link 1 - 0.02 / 0.95). Dyspnoea is no noisy-OR: 0.9 < 1 - 0.2 * 0.3 / 0.9; it is left out.
  it.each([
    ['smoker, x-ray seen', 0.0104, 0.1, 1],
    ['non-smoker, x-ray clear', 0.0104, 0.01, 0],
  ] as const)('agrees with queryGeneral on the x-ray of a %s', (_, tuberculosis, cancer, level) => {
    const smoker = cancer === 0.1 ? 1 : 0;
    const truth = queryGeneral(
      asia.network,
      new Map([
        [asia.ids.indexOf('smoker'), smoker],
        [asia.ids.indexOf('xray'), level],
      ]),
    );
    const model: GraphModel = {
      causes: [
        { id: 'tuberculosis', prior: tuberculosis },
        { id: 'lung_cancer', prior: cancer },
      ],
      mechanisms: [
        {
          id: 'either',
          leak: 0,
          links: [
            { cause: 0, probability: 1 },
            { cause: 1, probability: 1 },
          ],
        },
      ],
      observations: [
        {
          id: 'xray',
          leak: [0.95, 0.05],
          links: [{ from: { kind: 'mechanism', index: 0 }, levels: [0.02 / 0.95, 1 - 0.02 / 0.95] }],
        },
      ],
    };
    const evidence: GraphEvidence[] = [{ observation: 0, kind: 'level', level }];
    const found = infer(model, [tuberculosis, cancer], evidence);
    if (found.kind !== 'ok' || !found.exact || truth.kind !== 'ok') throw new Error('expected exact answers');
    expect(found.causes[0]).toBeCloseTo(truth.posteriors[asia.ids.indexOf('tuberculosis')]?.[1] ?? NaN, 12);
    expect(found.causes[1]).toBeCloseTo(truth.posteriors[asia.ids.indexOf('lung_cancer')]?.[1] ?? NaN, 12);
    expect(found.mechanisms[0]).toBeCloseTo(truth.posteriors[asia.ids.indexOf('either')]?.[1] ?? NaN, 12);
  });
});

describe('queryGeneral', () => {
  it('returns impossible evidence as a value', () => {
    expect(
      queryGeneral(
        sprinkler.network,
        new Map([
          [1, 0],
          [2, 0],
          [3, 1],
        ]),
      ),
    ).toEqual({ kind: 'impossible-evidence' });
  });
  it('refuses a table that does not sum to 1 and evidence that names nothing', () => {
    const bad = { variables: [{ id: 'x', states: 2, parents: [], table: [0.5, 0.6] }] };
    expect(() => queryGeneral(bad, new Map())).toThrow(/row 0 of "x" must be probabilities that sum to 1/);
    expect(() => queryGeneral(alarm.network, new Map([[9, 0]]))).toThrow(/evidence names variable 9/);
    expect(() => queryGeneral(alarm.network, new Map([[0, 2]]))).toThrow(/state of "burglary"/);
  });
});
