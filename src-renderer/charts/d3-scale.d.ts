/** The part of d3-scale that the charts use; the package brings no types of its own. */
declare module 'd3-scale' {
  export interface LinearScale {
    (value: number): number;
    domain(range: readonly [number, number]): LinearScale;
    range(range: readonly [number, number]): LinearScale;
    nice(count?: number): LinearScale;
    ticks(count?: number): number[];
    domain(): [number, number];
  }
  export function scaleLinear(): LinearScale;

  export interface BandScale {
    (value: string): number | undefined;
    domain(values: readonly string[]): BandScale;
    range(range: readonly [number, number]): BandScale;
    padding(padding: number): BandScale;
    bandwidth(): number;
  }
  export function scaleBand(): BandScale;
}
