import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinSpace, joinTables, joinTablesBackward } from '../../src-core/inference/circuit/join-tables.ts';
import { joinPlan } from '../../src-core/inference/circuit/join-plan.ts';
import { joinPairs, tableShape } from '../../src-core/inference/circuit/table-shape.ts';
import { maximumJoin } from '../../src-core/inference/network/max-network.ts';
import { generator } from './random-model.ts';

/** Axes of two tables: who has it, how many states, and whether it is an auxiliary that takes the higher of the two. */
const AXES = fc.array(
  fc.record({
    owner: fc.constantFrom('left', 'right', 'both'),
    states: fc.integer({ min: 2, max: 4 }),
    isAuxiliary: fc.boolean(),
  }),
  { minLength: 1, maxLength: 5 },
);

function laidOut(axes: readonly { owner: string; states: number; isAuxiliary: boolean }[], seed: number) {
  const random = generator(seed);
  const shapeOf = (wanted: readonly string[]) => {
    const own = axes.flatMap((axis, variable) => (wanted.includes(axis.owner) ? [variable] : []));
    return tableShape(
      own,
      own.map((variable) => axes[variable]?.states ?? 1),
    );
  };
  const left = shapeOf(['left', 'both']);
  const right = shapeOf(['right', 'both']);
  const out = shapeOf(['left', 'right', 'both']);
  // Scales are powers of two, as the compiler takes them.
  const scales = axes.map(({ states }) =>
    Float64Array.from({ length: states }, (_, k) => (k === 0 ? 1 : 2 ** -Math.floor(random() * 4))),
  );
  const pairs = axes.map(({ states, isAuxiliary }, variable) =>
    isAuxiliary
      ? joinPairs(
          { states, start: new Float64Array(states), join: maximumJoin(states), closes: null, settles: -1 },
          scales[variable] ?? new Float64Array(0),
        )
      : null,
  );
  const filled = (size: number) => Float64Array.from({ length: size }, () => random());
  const steps = joinPlan(left, right, out, (variable) => pairs[variable] ?? null);
  return {
    left,
    right,
    out,
    scales,
    steps,
    a: filled(left.size),
    b: filled(right.size),
    c: filled(out.size),
  };
}

type Laid = ReturnType<typeof laidOut>;

/** The definition: every pair of entries, each to the entry of the higher state on axes that both have. */
function byDefinition(
  axes: readonly { owner: string; isAuxiliary: boolean }[],
  { left, right, out, scales, a, b }: Laid,
): Float64Array {
  const sum = new Float64Array(out.size);
  const stateAt = (shape: typeof left, entry: number, variable: number) => {
    const at = shape.axes.indexOf(variable);
    return at < 0 ? -1 : Math.floor(entry / (shape.strides[at] ?? 1)) % (shape.sizes[at] ?? 1);
  };
  for (let x = 0; x < left.size; x++) {
    for (let y = 0; y < right.size; y++) {
      let to = 0;
      let factor = 1;
      axes.forEach((axis, variable) => {
        const i = stateAt(left, x, variable);
        const j = stateAt(right, y, variable);
        const state = Math.max(i, j);
        to += state * (out.strides[out.axes.indexOf(variable)] ?? 0);
        if (axis.owner !== 'both') return;
        const scale = scales[variable] ?? new Float64Array(0);
        if (axis.isAuxiliary) factor *= ((scale[i] ?? 1) * (scale[j] ?? 1)) / (scale[state] ?? 1);
        else if (i !== j) factor = 0;
      });
      sum[to] = (sum[to] ?? 0) + factor * (a[x] ?? 0) * (b[y] ?? 0);
    }
  }
  return sum;
}

const dot = (x: Float64Array, y: Float64Array) => x.reduce((sum, value, k) => sum + value * (y[k] ?? 0), 0);

describe('two tables joined', () => {
  it('hold what every pair of entries adds up to, on axes of any kind', () =>
    fc.assert(
      fc.property(AXES, fc.integer({ min: 1, max: 1e9 }), (axes, seed) => {
        const laid = laidOut(axes, seed);
        const joined = new Float64Array(laid.out.size);
        joinTables(laid.steps, laid.a, laid.b, joined, new Float64Array(joinSpace(laid.steps)));
        byDefinition(axes, laid).forEach((value, k) => expect(joined[k]).toBeCloseTo(value, 10));
      }),
      { numRuns: 200, seed: 71 },
    ));

  it('give back adjoints that are the derivatives by either table', () =>
    fc.assert(
      fc.property(AXES, fc.integer({ min: 1, max: 1e9 }), (axes, seed) => {
        const laid = laidOut(axes, seed);
        const { steps, a, b, c } = laid;
        const ofLeft = new Float64Array(a.length).fill(9);
        const ofRight = new Float64Array(b.length).fill(9);
        joinTablesBackward(steps, a, b, c, ofLeft, ofRight, new Float64Array(joinSpace(steps)));
        // Linear in each table: the value is the table times its derivative, whichever way it is written.
        const value = dot(byDefinition(axes, laid), c);
        expect(dot(ofLeft, a)).toBeCloseTo(value, 9);
        expect(dot(ofRight, b)).toBeCloseTo(value, 9);
        const unit = a.map((_, k) => (k === seed % a.length ? 1 : 0));
        expect(ofLeft[seed % a.length]).toBeCloseTo(dot(byDefinition(axes, { ...laid, a: unit }), c), 9);
      }),
      { numRuns: 200, seed: 72 },
    ));
});
