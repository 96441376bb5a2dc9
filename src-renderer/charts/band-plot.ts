/** A line with its doubt; low and high are the 10 and 90 % points, or the same as y where there is no doubt. */
export interface BandPoint {
  readonly x: number;
  readonly low: number;
  readonly y: number;
  readonly high: number;
}

export interface BandSeries {
  readonly name: string;
  readonly points: readonly BandPoint[];
  /** Dashed line and hatched band, so that two series are told apart without colour. */
  readonly isDashed?: boolean;
}

/** Something that lies across the plot, such as a limit, with its doubt. */
export interface BandLevel {
  readonly name: string;
  readonly low: number;
  readonly y: number;
  readonly high: number;
}

/** Something at one place of the horizontal axis, such as "now". */
export interface BandMark {
  readonly name: string;
  readonly x: number;
}

/** Rows of the table behind a plot: at most `count` points, the first and the last among them. */
export function tableRows(series: readonly BandSeries[], count = 12): readonly number[] {
  const xs = [...new Set(series.flatMap(({ points }) => points.map(({ x }) => x)))].sort((a, b) => a - b);
  if (xs.length <= count) return xs;
  return Array.from({ length: count }, (_, i) => xs[Math.round((i * (xs.length - 1)) / (count - 1))] ?? 0);
}

/** The point of a series at or last before x; undefined before its first. */
export function pointAt({ points }: BandSeries, x: number): BandPoint | undefined {
  return points.findLast((point) => point.x <= x);
}
