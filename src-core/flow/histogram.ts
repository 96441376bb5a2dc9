import { largest, smallest } from './extremes.ts';

/** Weights by value, rounded to a step: what is usual. Few different values; more than 5,000 are lumped together. */
export class Histogram {
  private readonly weights = new Map<number, number>();
  private readonly step: number;

  constructor(step: number) {
    this.step = step;
  }

  add(value: number, weight = 1): void {
    const key = Math.round(value / this.step);
    if (this.weights.size >= 5000 && !this.weights.has(key)) return;
    this.weights.set(key, (this.weights.get(key) ?? 0) + weight);
  }

  /** The value with the largest weight; null when there is none. */
  usual(): number | null {
    let best: number | null = null;
    let most = 0;
    for (const [key, weight] of this.weights) {
      if (weight > most) {
        most = weight;
        best = key * this.step;
      }
    }
    return best === null ? null : rounded(best);
  }

  /** Smallest and largest value; null when there is none. */
  range(): readonly [number, number] | null {
    if (this.weights.size === 0) return null;
    const keys = [...this.weights.keys()];
    return [rounded(smallest(keys) * this.step), rounded(largest(keys) * this.step)];
  }
}

/** Takes the dust of the step off: 0.30000000000000004 is 0.3. */
function rounded(value: number): number {
  return Number(value.toFixed(6));
}
