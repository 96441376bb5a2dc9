import type { JobFigures } from './job-figures.ts';
import { Histogram } from './histogram.ts';

/** Filament drawn back: how often, how far, how fast. Drawn back in several moves, as while wiping, it is still once. */
export class Retractions {
  private count = 0;
  private byFirmware = 0;
  private isBack = false;
  /** How far it is drawn back; null where the machine's own setting says how far. */
  private backMm: number | null = 0;
  private readonly lengths = new Histogram(0.05);
  private readonly speeds = new Histogram(0.5);

  drawBack(mm: number, speedMmPerS: number): void {
    if (this.isBack && this.backMm === null) return;
    const before = this.isBack ? (this.backMm ?? 0) : 0;
    if (this.isBack) this.lengths.add(before, -1);
    else {
      this.count++;
      this.speeds.add(speedMmPerS);
    }
    this.backMm = before + mm;
    this.lengths.add(this.backMm);
    this.isBack = true;
  }

  /** G10: length and speed are set in the machine. */
  drawBackByFirmware(): void {
    if (this.isBack) return;
    this.count++;
    this.byFirmware++;
    this.isBack = true;
    this.backMm = null;
  }

  /** Filament goes forward again. */
  push(): void {
    this.isBack = false;
  }

  figures(filamentMm: number): JobFigures['retractions'] {
    return {
      count: this.count,
      byFirmware: this.byFirmware,
      usualLengthMm: this.lengths.usual() ?? 0,
      usualSpeedMmPerS: this.speeds.usual() ?? 0,
      perMetreOfFilament: filamentMm > 0 ? this.count / (filamentMm / 1000) : 0,
    };
  }
}
