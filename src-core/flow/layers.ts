import type { JobFigures, JobPlace, LayerFigures } from './job-figures.ts';
import { Histogram } from './histogram.ts';

const MOST_KEPT = 20_000;
/** A step up smaller than this is no new layer. */
const LEAST_STEP_MM = 0.045;

/** What the machine is set to. */
export interface SetPoints {
  readonly nozzleC: number | null;
  readonly plateC: number | null;
}

interface OpenLayer extends SetPoints {
  readonly zMm: number;
  readonly line: number;
  seconds: number;
  fanSeconds: number;
  filamentMm: number;
  volumeMm3: number;
  extrudingSeconds: number;
  extrudingMm: number;
  peakFlow: number;
}

/**
 * Layers, told by the height at which the job extrudes, not by comments: travel at another height (a hop) makes none. A job
 * that spirals upwards gets one for each usual step.
 */
export class Layers {
  readonly kept: LayerFigures[] = [];
  count = 0;
  private open: OpenLayer | null = null;
  private readonly steps = new Histogram(0.005);
  private largest: { mm: number; at: JobPlace } | null = null;
  private shortest: { seconds: number; at: JobPlace } | null = null;
  private lastZ = 0;
  private fanSeconds = 0;
  private fanOver = 0;

  /** Begins a new layer when this extruding move lies on another; true when it does. */
  begin(zMm: number, isRising: boolean, line: number, setPoints: SetPoints): boolean {
    if (this.open) {
      const step = zMm - this.open.zMm;
      const usual = this.steps.usual() ?? LEAST_STEP_MM;
      const least = isRising ? Math.max(LEAST_STEP_MM, usual * 0.9) : LEAST_STEP_MM;
      // Down again: the next part of a job that prints part by part.
      if (Math.abs(step) < (step > 0 ? least : LEAST_STEP_MM)) return false;
      this.close();
    }
    const step = zMm - this.lastZ;
    if (step > 0 && this.count > 0) {
      this.steps.add(step);
      if (step < 2 && (!this.largest || step > this.largest.mm + 1e-6))
        this.largest = { mm: step, at: { line, layer: this.count + 1 } };
    }
    this.lastZ = zMm;
    this.count++;
    this.open = {
      ...setPoints,
      zMm,
      line,
      seconds: 0,
      fanSeconds: 0,
      filamentMm: 0,
      volumeMm3: 0,
      extrudingSeconds: 0,
      extrudingMm: 0,
      peakFlow: 0,
    };
    return true;
  }

  /** Time that passes within the layer, with the fan at this share. */
  pass(seconds: number, fanShare: number): void {
    if (!this.open) return;
    this.open.seconds += seconds;
    this.open.fanSeconds += seconds * fanShare;
  }

  extrude(seconds: number, mm: number, filamentMm: number, volumeMm3: number): void {
    if (!this.open) return;
    this.open.extrudingSeconds += seconds;
    this.open.extrudingMm += mm;
    this.open.filamentMm += filamentMm;
    this.open.volumeMm3 += volumeMm3;
  }

  flow(mm3PerS: number): void {
    if (this.open && mm3PerS > this.open.peakFlow) this.open.peakFlow = mm3PerS;
  }

  /** Ends the layer under way. */
  close(): void {
    const open = this.open;
    if (!open) return;
    this.open = null;
    const at = { line: open.line, layer: this.count };
    // The last crumbs of a job, a prime line say, are no layer to judge cooling by.
    if (this.count > 1 && open.filamentMm > 1 && (!this.shortest || open.seconds < this.shortest.seconds))
      this.shortest = { seconds: open.seconds, at };
    if (this.count > 3) {
      this.fanSeconds += open.fanSeconds;
      this.fanOver += open.seconds;
    }
    if (this.kept.length >= MOST_KEPT) return;
    this.kept.push({
      zMm: open.zMm,
      line: open.line,
      seconds: open.seconds,
      filamentMm: open.filamentMm,
      meanFlowMm3PerS: open.extrudingSeconds > 0 ? open.volumeMm3 / open.extrudingSeconds : 0,
      peakFlowMm3PerS: open.peakFlow,
      nozzleC: open.nozzleC,
      plateC: open.plateC,
      fanShare: open.seconds > 0 ? open.fanSeconds / open.seconds : 0,
      speedMmPerS: open.extrudingSeconds > 0 ? open.extrudingMm / open.extrudingSeconds : 0,
    });
  }

  /** What the layers add up to; requires that the last is closed. */
  figures(): Pick<
    JobFigures,
    'layers' | 'layerCount' | 'firstLayer' | 'layerHeight' | 'shortestLayer' | 'fanShare'
  > {
    const [first] = this.kept;
    const usual = this.steps.usual();
    return {
      layers: this.kept,
      layerCount: this.count,
      firstLayer: first ? { heightMm: first.zMm, speedMmPerS: first.speedMmPerS } : null,
      layerHeight:
        usual === null || !this.largest
          ? null
          : { usualMm: usual, largestMm: Number(this.largest.mm.toFixed(4)), largestAt: this.largest.at },
      shortestLayer: this.shortest,
      fanShare: this.fanOver > 0 ? this.fanSeconds / this.fanOver : (first?.fanShare ?? 0),
    };
  }
}
