import type { JobPlace } from './job-figures.ts';

/** Flow that lasts shorter than this is evened out by the melt in the hot end. Our own figure. */
const WINDOW_SECONDS = 0.5;
const BIN_MM3_PER_S = 0.05;
const BINS = 6000;

/** Flow over time: windows of half a second of extruding, gathered into a histogram by time. Memory stays the same. */
export class FlowWindows {
  peakMm3PerS = 0;
  peakAt: JobPlace | null = null;
  private readonly secondsAt = new Float64Array(BINS);
  private volume = 0;
  private seconds = 0;

  /** One extruding move; returns the flow of the window it filled, or 0. */
  add(volumeMm3: number, seconds: number, line: number, layer: number): number {
    this.volume += volumeMm3;
    this.seconds += seconds;
    if (this.seconds < WINDOW_SECONDS) return 0;
    return this.close(line, layer);
  }

  /** Ends a window early, as at the end of a layer; one too short to say much counts for the time, not for the peak. */
  flush(line: number, layer: number): number {
    if (this.seconds === 0) return 0;
    return this.close(line, layer);
  }

  /** Flow that is not passed in this share (0 to 1) of the extruding time, mm³/s: to half a bin. */
  quantile(share: number): number {
    const total = this.secondsAt.reduce((sum, one) => sum + one, 0);
    let sum = 0;
    for (let bin = 0; bin < BINS; bin++) {
      sum += this.secondsAt[bin] as number;
      if (total > 0 && sum >= share * total) return Math.min(this.peakMm3PerS, (bin + 0.5) * BIN_MM3_PER_S);
    }
    return 0;
  }

  private close(line: number, layer: number): number {
    const flow = this.volume / this.seconds;
    const bin = Math.min(BINS - 1, Math.floor(flow / BIN_MM3_PER_S));
    this.secondsAt[bin] = (this.secondsAt[bin] as number) + this.seconds;
    const isLongEnough = this.seconds >= WINDOW_SECONDS / 2;
    this.volume = 0;
    this.seconds = 0;
    if (!isLongEnough) return 0;
    if (flow > this.peakMm3PerS) {
      this.peakMm3PerS = flow;
      this.peakAt = { line, layer };
    }
    return flow;
  }
}
