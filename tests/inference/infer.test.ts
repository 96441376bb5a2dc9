import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import type { ExactPosterior } from '../../src-core/inference/queries/posterior.ts';
import { bruteForce } from './brute-force.ts';
import { randomCases, type RandomCase } from './random-model.ts';

const SMALL = { causes: 6, mechanisms: 3, observations: 6 };

function exact({ model, priors, evidence }: RandomCase): ExactPosterior | null {
  const posterior = infer(model, priors, evidence);
  if (posterior.kind === 'impossible-evidence') return null;
  if (!posterior.exact) throw new Error('expected an exact answer');
  return posterior;
}

describe('infer', () => {
  it('equals enumeration on 1000 random networks', () => {
    fc.assert(
      fc.property(randomCases(SMALL), (each) => {
        const posterior = exact(each);
        const truth = bruteForce(each.model, each.priors, each.evidence);
        if (!posterior) {
          expect(truth.evidence).toBeLessThan(1e-15);
          return;
        }
        // Enumeration subtracts cumulative products, so it is the less precise of the two for rare evidence.
        fc.pre(truth.evidence > 1e-6);
        expect(Math.exp(posterior.logEvidence) / truth.evidence).toBeCloseTo(1, 9);
        truth.causes.forEach((p, k) => expect(posterior.causes[k]).toBeCloseTo(p, 9));
        truth.mechanisms.forEach((p, k) => expect(posterior.mechanisms[k]).toBeCloseTo(p, 9));
      }),
      { numRuns: 1000, seed: 11 },
    );
  });

  it('does not depend on the order of the evidence', () => {
    fc.assert(
      fc.property(randomCases(SMALL), (each) => {
        const forward = exact(each);
        const backward = exact({ ...each, evidence: [...each.evidence].reverse() });
        expect(backward === null).toBe(forward === null);
        if (!forward || !backward) return;
        expect(backward.logEvidence).toBeCloseTo(forward.logEvidence, 10);
        forward.causes.forEach((p, k) => expect(backward.causes[k]).toBeCloseTo(p, 12));
      }),
      { numRuns: 200, seed: 12 },
    );
  });

  it('is unmoved by a finding that is equally likely whatever the level', () => {
    fc.assert(
      fc.property(randomCases({ ...SMALL, evidenceShare: 0.5 }), (each) => {
        const open = each.model.observations.findIndex(
          (_, o) => !each.evidence.some((f) => f.observation === o),
        );
        fc.pre(open >= 0);
        const likelihood = (each.model.observations[open]?.leak ?? []).map(() => 0.25);
        const before = exact(each);
        fc.pre(before !== null);
        const after = exact({
          ...each,
          evidence: [...each.evidence, { observation: open, kind: 'likelihood', likelihood }],
        });
        before.causes.forEach((p, k) => expect(after?.causes[k]).toBe(p));
        expect(after?.logEvidence).toBeCloseTo(before.logEvidence + Math.log(0.25), 12);
      }),
      { numRuns: 200, seed: 13 },
    );
  });

  it('believes a cause more the stronger its link to a finding that is present', () => {
    const strengths = fc.tuple(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    );
    const others = fc.array(fc.double({ min: 0.01, max: 0.9, noNaN: true }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(strengths, others, ([a, b], links) => {
        const posteriorAt = (strength: number) =>
          exact(twoLayer([0.1, ...links.map(() => 0.2)], 0.05, [strength, ...links]))?.causes[0] ?? NaN;
        expect(posteriorAt(Math.max(a, b))).toBeGreaterThanOrEqual(posteriorAt(Math.min(a, b)) - 1e-12);
      }),
      { numRuns: 200, seed: 14 },
    );
  });

  it('treats a noisy-MAX of two levels as the noisy-OR (inference.yaml noisy-max-reduction)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.array(fc.tuple(fc.boolean(), fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 8 }),
        (leak, parents) => {
          const priors = parents.map(([isPresent]) => (isPresent ? 1 : 0));
          const each = twoLayer(
            priors,
            leak,
            parents.map(([, p]) => p),
          );
          const silent = parents.reduce(
            (product, [isPresent, p]) => product * (isPresent ? 1 - p : 1),
            1 - leak,
          );
          expect(Math.exp(exact(each)?.logEvidence ?? -Infinity)).toBeCloseTo(1 - silent, 12);
        },
      ),
      { numRuns: 200, seed: 15 },
    );
  });

  it('keeps certainty: a prior of 0 or 1 is never moved', () => {
    const posterior = exact(twoLayer([0, 1, 0.5], 0.1, [0.9, 0.5, 0.5]));
    expect(posterior?.causes[0]).toBe(0);
    expect(posterior?.causes[1]).toBe(1);
    expect(posterior?.causeLogOdds[0]).toBe(-Infinity);
    expect(posterior?.causeLogOdds[1]).toBe(Infinity);
  });

  it('returns contradictory evidence as a value', () => {
    const { model, evidence } = twoLayer([0, 0], 0, [0.5, 0.5]);
    expect(infer(model, [0, 0], evidence)).toEqual({ kind: 'impossible-evidence' });
  });

  it('answers with the priors when there is no evidence, no cause, or no observation', () => {
    const { model } = twoLayer([0.1, 0.2], 0.1, [0.5, 0.5]);
    expect([...(exact({ model, priors: [0.1, 0.2], evidence: [] })?.causes ?? [])]).toEqual([0.1, 0.2]);
    const empty: GraphModel = { causes: [], mechanisms: [], observations: [] };
    expect(exact({ model: empty, priors: [], evidence: [] })?.logEvidence).toBe(0);
  });

  it('is right to ten digits where rational arithmetic gives probabilities far below 1e-12', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 2, maxLength: 6 }),
        fc.integer({ min: 1, max: 2 ** 31 - 2 }),
        (findingsOf, seed) => {
          const { each, evidence, causes } = rareCase(findingsOf, seed);
          const posterior = exact(each);
          expect(posterior).not.toBeNull();
          expect(relativeError(Math.exp(posterior?.logEvidence ?? NaN), evidence)).toBeLessThan(1e-10);
          causes.forEach((p, k) => expect(relativeError(posterior?.causes[k] ?? NaN, p)).toBeLessThan(1e-10));
        },
      ),
      { numRuns: 200, seed: 16 },
    );
  });

  it('does not underflow when forty findings each have a cause of 1e-30', () => {
    const count = 40;
    const model: GraphModel = {
      causes: Array.from({ length: count }, (_, k) => ({ id: `c${k}`, prior: 1e-30 })),
      mechanisms: [],
      observations: Array.from({ length: count }, (_, k) => ({
        id: `o${k}`,
        leak: [1, 0],
        // Each finding has its own cause and its neighbour's, so that all hang together.
        links: [k, (k + 1) % count].map((index) => ({
          from: { kind: 'cause' as const, index },
          levels: [0.5, 0.5],
        })),
      })),
    };
    const evidence = model.observations.map((_, observation): GraphEvidence => ({
      observation,
      kind: 'level',
      level: 1,
    }));
    const posterior = exact({ model, priors: model.causes.map(() => 1e-30), evidence });
    // Twenty causes, every second one, explain all forty: P is near 2 * (1e-30)^20 * 0.5^40.
    const log = Math.log(2) + 20 * Math.log(1e-30) + 40 * Math.log(0.5);
    expect(posterior?.logEvidence).toBeCloseTo(log, 9);
    posterior?.causes.forEach((p) => expect(p).toBeCloseTo(0.5, 9));
  });

  describe('refuses wrong use and names it', () => {
    const { model } = twoLayer([0.1, 0.2], 0.1, [0.5, 0.5]);
    const level: GraphEvidence = { observation: 0, kind: 'level', level: 1 };
    it.each([
      ['a prior that is no number', [NaN, 0.2], [level], /prior of cause "c0".*NaN/],
      ['a prior above 1', [0.1, 1.2], [level], /prior of cause "c1".*1\.2/],
      ['too few priors', [0.1], [level], /one number for each of 2 causes, got 1/],
      [
        'an observation that does not exist',
        [0.1, 0.2],
        [{ ...level, observation: 7 }],
        /from 0 to 0, got 7/,
      ],
      [
        'a level that does not exist',
        [0.1, 0.2],
        [{ ...level, level: 2 }],
        /level of observation "o".*got 2/,
      ],
      ['the same observation twice', [0.1, 0.2], [level, level], /names observation "o" twice/],
      [
        'a negative likelihood',
        [0.1, 0.2],
        [{ observation: 0, kind: 'likelihood', likelihood: [1, -1] }],
        /got -1/,
      ],
      [
        'a likelihood of wrong length',
        [0.1, 0.2],
        [{ observation: 0, kind: 'likelihood', likelihood: [1] }],
        /2 numbers, got 1/,
      ],
    ] as const)('%s', (_, priors, evidence, message) => {
      expect(() => infer(model, priors, evidence)).toThrow(message);
    });
    it('a link that points nowhere', () => {
      const observations = [
        {
          id: 'o',
          leak: [1, 0],
          links: [{ from: { kind: 'mechanism' as const, index: 0 }, levels: [0, 1] }],
        },
      ];
      expect(() => infer({ ...model, observations }, [0.1, 0.2], [])).toThrow(
        /mechanism of a link of observation "o"/,
      );
    });
    it('a distribution that does not sum to 1', () => {
      const observations = [{ id: 'o', leak: [0.5, 0.4], links: [] }];
      expect(() => infer({ ...model, observations }, [0.1, 0.2], [])).toThrow(
        /leak of observation "o" must sum to 1, got 0\.9/,
      );
    });
  });
});

/** Causes with one observation, which is present. */
function twoLayer(priors: readonly number[], leak: number, links: readonly number[]): RandomCase {
  const model: GraphModel = {
    causes: priors.map((prior, k) => ({ id: `c${k}`, prior })),
    mechanisms: [],
    observations: [
      {
        id: 'o',
        leak: [1 - leak, leak],
        links: links.map((p, index) => ({ from: { kind: 'cause', index }, levels: [1 - p, p] })),
      },
    ],
  };
  return { model, priors, evidence: [{ observation: 0, kind: 'level', level: 1 }] };
}

/**
 * A two-layer network with priors and leaks around 1e-12, and its exact answer in whole-number arithmetic: every
 * number is a multiple of 1e-15, and every term of the joint has the same number of factors.
 */
function rareCase(findingsOf: readonly number[], seed: number) {
  let state = seed;
  const below = (count: number) => (state = (state * 16807) % 2147483647) % count;
  const unit = 10n ** 15n;
  const priors = findingsOf.map(() => BigInt(1 + below(9000)));
  const findings = Array.from({ length: 5 }, (_, f) => ({
    isPresent: f < 3,
    leak: BigInt(below(900)),
    links: findingsOf.map((count, cause) =>
      (f + cause) % 5 < count ? BigInt(1 + below(999)) * 10n ** 12n : 0n,
    ),
  }));
  let evidence = 0n;
  const joint = findingsOf.map(() => 0n);
  for (let mask = 0; mask < 2 ** priors.length; mask++) {
    let term = 1n;
    priors.forEach((p, k) => (term *= (mask >> k) & 1 ? p : unit - p));
    for (const { isPresent, leak, links } of findings) {
      let silent = unit - leak;
      let whole = unit;
      links.forEach((p, k) => {
        silent *= (mask >> k) & 1 ? unit - p : unit;
        whole *= unit;
      });
      term *= isPresent ? whole - silent : silent;
    }
    evidence += term;
    joint.forEach((sum, k) => (joint[k] = (mask >> k) & 1 ? sum + term : sum));
  }
  const scale = unit ** BigInt(priors.length + findings.length * (1 + priors.length));
  const asNumber = (p: bigint) => Number(p) / Number(unit);
  const pair = (p: bigint) => [1 - asNumber(p), asNumber(p)];
  const model: GraphModel = {
    causes: priors.map((p, k) => ({ id: `c${k}`, prior: asNumber(p) })),
    mechanisms: [],
    observations: findings.map(({ leak, links }, f) => ({
      id: `o${f}`,
      leak: pair(leak),
      links: links.flatMap((p, index) =>
        p === 0n ? [] : [{ from: { kind: 'cause' as const, index }, levels: pair(p) }],
      ),
    })),
  };
  const each: RandomCase = {
    model,
    priors: priors.map(asNumber),
    evidence: findings.map(({ isPresent }, observation) => ({
      observation,
      kind: 'level',
      level: isPresent ? 1 : 0,
    })),
  };
  return { each, evidence: quotient(evidence, scale), causes: joint.map((sum) => quotient(sum, evidence)) };
}

/** a / b with about 17 digits, also when both are beyond the range of numbers. */
function quotient(a: bigint, b: bigint): number {
  if (a === 0n) return 0;
  const digits = BigInt(Math.max(0, b.toString().length - a.toString().length + 20));
  return Number(`${((a * 10n ** digits) / b).toString()}e-${digits}`);
}

function relativeError(found: number, truth: number): number {
  return truth === 0 ? Math.abs(found) : Math.abs(found / truth - 1);
}
