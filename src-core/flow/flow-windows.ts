import type { JobPlace } from './job-figures.ts';

/** Flow that lasts shorter than this is evened out by the melt in the hot end. Our own figure. */
const WINDOW_SECONDS = 0.5;
/** Moves shorter than this are taken together, so that few beginnings have to be kept. */
const LEAST_PIECE_SECONDS = 0.005;
/** More than the pieces that begin within a window. */
const RING = 128;
const BIN_MM3_PER_S = 0.05;
const BINS = 6000;
/** Rounding makes no new peak. */
const DUST_MM3_PER_S = 1e-9;

/**
 * Flow over the time spent extruding; travel in between does not count. The peak is the largest mean over any half second:
 * within a move the flow is even, so the largest lies where the window begins or ends with a move, and only these are tried.
 * The histogram is of windows one after the other, weighted by time. Memory stays the same however long the job.
 */
export class FlowWindows {
  peakMm3PerS = 0;
  peakAt: JobPlace | null = null;
  private readonly secondsAt = new Float64Array(BINS);
  private binned = { volume: 0, seconds: 0 };

  /** Beginnings of the pieces that a window may still begin with: time and volume since the last flush. */
  private readonly beganAt = new Float64Array(RING);
  private readonly beganWith = new Float64Array(RING);
  private oldest = 0;
  private next = 0;
  /** The piece in which the last window began. */
  private passedAt = 0;
  private passedWith = 0;
  private seconds = 0;
  private volume = 0;
  private shortSeconds = 0;
  private shortVolume = 0;

  /** One extruding move; returns the largest flow of the windows that end in it, 0 where none is full. */
  add(volumeMm3: number, seconds: number, line: number, layer: number): number {
    const { binned } = this;
    binned.volume += volumeMm3;
    binned.seconds += seconds;
    if (binned.seconds >= WINDOW_SECONDS) this.bin();
    this.shortSeconds += seconds;
    this.shortVolume += volumeMm3;
    if (this.shortSeconds < LEAST_PIECE_SECONDS) return 0;
    return this.peak(this.slide() / WINDOW_SECONDS, line, layer);
  }

  /**
   * Begins anew, as with a layer. What is left counts for the histogram; for the peak only where no window was full and half
   * of one was reached.
   */
  flush(line: number, layer: number): number {
    if (this.binned.seconds > 0) this.bin();
    const seconds = this.seconds + this.shortSeconds;
    const volume = this.volume + this.shortVolume;
    this.oldest = this.next = 0;
    this.passedAt = this.passedWith = 0;
    this.seconds = this.volume = 0;
    this.shortSeconds = this.shortVolume = 0;
    if (seconds < WINDOW_SECONDS / 2 || seconds >= WINDOW_SECONDS) return 0;
    return this.peak(volume / seconds, line, layer);
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

  /** Takes the gathered piece in; returns the largest volume of a full window that ends in it. */
  private slide(): number {
    const from = this.seconds;
    const before = this.volume;
    const to = from + this.shortSeconds;
    const after = before + this.shortVolume;
    const rate = this.shortVolume / this.shortSeconds;
    this.shortSeconds = this.shortVolume = 0;
    this.seconds = to;
    this.volume = after;
    this.beganAt[this.next % RING] = from;
    this.beganWith[this.next % RING] = before;
    this.next++;
    let most = 0;
    while (this.oldest < this.next) {
      const began = this.beganAt[this.oldest % RING] as number;
      if (began + WINDOW_SECONDS > to) break;
      this.passedAt = began;
      this.passedWith = this.beganWith[this.oldest % RING] as number;
      this.oldest++;
      most = Math.max(most, before + rate * (began + WINDOW_SECONDS - from) - this.passedWith);
    }
    const start = to - WINDOW_SECONDS;
    if (start < 0) return most;
    // The window that ends with this piece begins within an earlier one, or within this one where it is long.
    const isInThis = this.oldest === this.next;
    const endAt = isInThis ? to : (this.beganAt[this.oldest % RING] as number);
    const endWith = isInThis ? after : (this.beganWith[this.oldest % RING] as number);
    const slope = (endWith - this.passedWith) / (endAt - this.passedAt);
    return Math.max(most, after - this.passedWith - slope * (start - this.passedAt));
  }

  private bin(): void {
    const { volume, seconds } = this.binned;
    const bin = Math.min(BINS - 1, Math.floor(volume / seconds / BIN_MM3_PER_S));
    this.secondsAt[bin] = (this.secondsAt[bin] as number) + seconds;
    this.binned.volume = this.binned.seconds = 0;
  }

  private peak(flow: number, line: number, layer: number): number {
    if (flow > this.peakMm3PerS + DUST_MM3_PER_S) {
      this.peakMm3PerS = flow;
      this.peakAt = { line, layer };
    }
    return flow;
  }
}
