/**
 * A plain discrete Bayesian network with full conditional tables, for checking the layered engine and for
 * interchange. Small networks only; troubleshooting uses the layered form.
 */
export interface GeneralNetwork {
  readonly variables: readonly GeneralVariable[];
}

export interface GeneralVariable {
  readonly id: string;
  readonly states: number;
  /** Indices of the parents. */
  readonly parents: readonly number[];
  /** P(state | parents); own state runs fastest, then the last parent, the first parent slowest. */
  readonly table: readonly number[];
}

export type GeneralPosterior =
  | {
      readonly kind: 'ok';
      readonly evidenceProbability: number;
      /** posteriors[variable][state] */
      readonly posteriors: readonly Float64Array[];
    }
  | { readonly kind: 'impossible-evidence' };

interface Factor {
  readonly scope: readonly number[];
  readonly values: Float64Array;
}

const TOLERANCE = 1e-9;

/**
 * Posterior of every variable by bucket elimination (Dechter, AIJ 113 (1999)), one elimination a variable; order
 * by least new table. `evidence` maps a variable's index to its state. Wrong use throws.
 */
export function queryGeneral(
  network: GeneralNetwork,
  evidence: ReadonlyMap<number, number>,
): GeneralPosterior {
  requireNetwork(network, evidence);
  const sizes = network.variables.map((variable) => variable.states);
  const factors = network.variables.map((variable, index): Factor => {
    const full: Factor = { scope: [...variable.parents, index], values: Float64Array.from(variable.table) };
    return full.scope.reduce<Factor>((factor, v) => restrict(factor, v, evidence.get(v), sizes), full);
  });
  const total = eliminateAllBut(factors, null, sizes)[0] ?? 0;
  if (total === 0) return { kind: 'impossible-evidence' };
  const posteriors = network.variables.map((variable, index) => {
    const known = evidence.get(index);
    if (known !== undefined)
      return Float64Array.from({ length: variable.states }, (_, s) => (s === known ? 1 : 0));
    return eliminateAllBut(factors, index, sizes).map((value) => value / total);
  });
  return { kind: 'ok', evidenceProbability: total, posteriors };
}

function eliminateAllBut(
  factors: readonly Factor[],
  kept: number | null,
  sizes: readonly number[],
): Float64Array {
  let open = [...factors];
  for (;;) {
    const candidates = new Set(open.flatMap((factor) => factor.scope).filter((v) => v !== kept));
    if (candidates.size === 0) break;
    let best = -1;
    let bestSize = Infinity;
    for (const v of candidates) {
      const scope = new Set(
        open.filter((factor) => factor.scope.includes(v)).flatMap((factor) => factor.scope),
      );
      const size = [...scope].reduce((product, w) => product * (sizes[w] ?? 1), 1);
      if (size < bestSize) {
        best = v;
        bestSize = size;
      }
    }
    const joined = open
      .filter((factor) => factor.scope.includes(best))
      .reduce((a, b) => multiply(a, b, sizes));
    open = [...open.filter((factor) => !factor.scope.includes(best)), sumOut(joined, best, sizes)];
  }
  return open.reduce((a, b) => multiply(a, b, sizes)).values;
}

function multiply(a: Factor, b: Factor, sizes: readonly number[]): Factor {
  const scope = [...a.scope, ...b.scope.filter((v) => !a.scope.includes(v))];
  const values = new Float64Array(entries(scope, sizes));
  for (let entry = 0; entry < values.length; entry++) {
    const states = statesOf(entry, scope, sizes);
    values[entry] =
      (a.values[entryOf(a.scope, states, sizes)] ?? 0) * (b.values[entryOf(b.scope, states, sizes)] ?? 0);
  }
  return { scope, values };
}

function sumOut(factor: Factor, variable: number, sizes: readonly number[]): Factor {
  const scope = factor.scope.filter((v) => v !== variable);
  const values = new Float64Array(entries(scope, sizes));
  factor.values.forEach((value, entry) => {
    const at = entryOf(scope, statesOf(entry, factor.scope, sizes), sizes);
    values[at] = (values[at] ?? 0) + value;
  });
  return { scope, values };
}

function restrict(
  factor: Factor,
  variable: number,
  state: number | undefined,
  sizes: readonly number[],
): Factor {
  if (state === undefined) return factor;
  const kept = factor.values.map((value, entry) =>
    statesOf(entry, factor.scope, sizes).get(variable) === state ? value : 0,
  );
  return sumOut({ scope: factor.scope, values: kept }, variable, sizes);
}

function entries(scope: readonly number[], sizes: readonly number[]): number {
  return scope.reduce((product, v) => product * (sizes[v] ?? 1), 1);
}

function statesOf(entry: number, scope: readonly number[], sizes: readonly number[]): Map<number, number> {
  const states = new Map<number, number>();
  let rest = entry;
  for (let k = scope.length - 1; k >= 0; k--) {
    const v = scope[k] ?? -1;
    const size = sizes[v] ?? 1;
    states.set(v, rest % size);
    rest = Math.floor(rest / size);
  }
  return states;
}

function entryOf(
  scope: readonly number[],
  states: ReadonlyMap<number, number>,
  sizes: readonly number[],
): number {
  return scope.reduce((entry, v) => entry * (sizes[v] ?? 1) + (states.get(v) ?? 0), 0);
}

function requireNetwork({ variables }: GeneralNetwork, evidence: ReadonlyMap<number, number>): void {
  variables.forEach((variable, index) => {
    const rows = variable.parents.reduce((product, parent) => {
      const states = variables[parent]?.states;
      // Parents before children: no cycle can be written.
      if (states === undefined || parent >= index) {
        throw new RangeError(`parents of "${variable.id}" must come before it, got index ${parent}`);
      }
      return product * states;
    }, 1);
    if (variable.table.length !== rows * variable.states) {
      throw new RangeError(
        `table of "${variable.id}" must have ${rows * variable.states} entries, got ${variable.table.length}`,
      );
    }
    for (let row = 0; row < rows; row++) {
      const part = variable.table.slice(row * variable.states, (row + 1) * variable.states);
      const sum = part.reduce((total, p) => total + p, 0);
      if (!(Math.abs(sum - 1) <= TOLERANCE && part.every((p) => p >= 0))) {
        throw new RangeError(
          `row ${row} of "${variable.id}" must be probabilities that sum to 1, got ${part.join(', ')}`,
        );
      }
    }
  });
  for (const [index, state] of evidence) {
    const variable = variables[index];
    if (!variable)
      throw new RangeError(`evidence names variable ${index}, but there are ${variables.length}`);
    if (!(Number.isInteger(state) && state >= 0 && state < variable.states)) {
      throw new RangeError(
        `state of "${variable.id}" must be a whole number from 0 to ${variable.states - 1}, got ${state}`,
      );
    }
  }
}
