import { arcLengthMm } from './arc-length.ts';
import { filamentAreaMm2 } from './bead.ts';
import { FlowWindows } from './flow-windows.ts';
import { GcodeLine } from './gcode-line.ts';
import { JobFileError, type JobFigures } from './job-figures.ts';
import { Layers } from './layers.ts';
import { Tally } from './tally.ts';

const INCH_MM = 25.4;
const NEWLINE = 10;
const LONGEST_LINE = 64 * 1024;
/** Feed rate before any is given, mm/s; only lines before the first F are timed with it. */
const UNGIVEN_FEED_MM_PER_S = 25;
/** Dwells from this long count as pauses. */
const LONG_DWELL_SECONDS = 10;
const MOST_PAUSES = 200;
/** A file with more of other lines than this share is no job file. */
const MOST_OTHER_SHARE = 0.3;
const JUDGED_FROM_LINES = 200;
const G = 71;
const M = 77;
const T = 84;

export interface JobReaderOptions {
  /** Filament diameter, mm. */
  readonly filamentDiameterMm: number;
}

/**
 * Reads a job file of any size piece by piece: `push` what comes, `end` for the figures. Plain G-code: G0 to G3, G4, G10,
 * G11, G20, G21, G28, G90 to G92, M82, M83, M104, M109, M106, M107, M140, M190, M141, M191, M0, M1, M600, T (NIST
 * RS-274/NGC and the RepRap dialect). Comments say nothing here. How the file is cut into pieces makes no difference.
 *
 * A `JobFileError` names the line where something cannot be a job.
 */
export class JobReader {
  private readonly line = new GcodeLine();
  private readonly area: number;
  private carry = new Uint8Array(0);
  /** A NUL byte was pushed; lines are looked through for it only then. */
  private isNulAhead = false;
  private lines = 0;
  private bytes = 0;
  private others = 0;
  private words = 0;

  private x = 0;
  private y = 0;
  private z = 0;
  private e = 0;
  private feed = UNGIVEN_FEED_MM_PER_S;
  private unit = 1;
  private isAbsolute = true;
  private isExtruderAbsolute = true;
  private fan = 0;
  private nozzleC: number | null = null;
  private plateC: number | null = null;
  private chamberC: number | null = null;
  private plateSeen: number | null = null;
  private isRetracted = false;
  private retractMm = 0;

  private seconds = 0;
  private filamentMm = 0;
  private volumeMm3 = 0;
  private travelMm = 0;
  private retractions = 0;
  private firmwareRetractions = 0;
  private readonly retractLengths = new Tally(0.05);
  private readonly retractSpeeds = new Tally(0.5);
  private readonly nozzle = new Tally(1);
  private readonly flows = new FlowWindows();
  private readonly layers = new Layers();
  private readonly pauses: JobFigures['pauses'][number][] = [];
  private readonly tools = new Set<number>();
  private readonly notes = new Set<string>();

  constructor({ filamentDiameterMm }: JobReaderOptions) {
    this.area = filamentAreaMm2(filamentDiameterMm);
  }

  /** Takes the next piece. */
  push(piece: Uint8Array): void {
    this.bytes += piece.length;
    this.isNulAhead ||= piece.includes(0);
    let from = 0;
    if (this.carry.length > 0) {
      const end = piece.indexOf(NEWLINE);
      const rest = end < 0 ? piece : piece.subarray(0, end);
      if (this.carry.length + rest.length > LONGEST_LINE) this.refuseLongLine();
      const whole = new Uint8Array(this.carry.length + rest.length);
      whole.set(this.carry);
      whole.set(rest, this.carry.length);
      if (end < 0) {
        this.carry = whole;
        return;
      }
      this.carry = new Uint8Array(0);
      this.take(whole, 0, whole.length);
      from = end + 1;
    }
    for (;;) {
      const end = piece.indexOf(NEWLINE, from);
      if (end < 0) break;
      this.take(piece, from, end);
      from = end + 1;
    }
    if (from < piece.length) {
      if (piece.length - from > LONGEST_LINE) this.refuseLongLine();
      this.carry = piece.slice(from);
    }
  }

  /** The figures of all that was pushed. Throws where it was no job. */
  end(): JobFigures {
    if (this.carry.length > 0) {
      this.notes.add('The file ends in the middle of a line: it may have been cut off.');
      const last = this.carry;
      this.carry = new Uint8Array(0);
      this.take(last, 0, last.length);
    }
    this.judge(true);
    this.layers.flow(this.flows.flush(this.lines, this.layers.count));
    this.layers.close();
    if (!(this.filamentMm > 0)) {
      throw new JobFileError(
        `${this.lines} lines were read and none extrudes: a job file moves X or Y while E goes forward (G1 X… E…)`,
      );
    }
    if (this.nozzleC !== null && this.nozzleC > 0)
      this.notes.add('The nozzle is still heated at the end: the file may have been cut off.');
    return {
      lines: this.lines,
      bytes: this.bytes,
      seconds: this.seconds,
      filamentMm: this.filamentMm,
      volumeMm3: this.volumeMm3,
      travelMm: this.travelMm,
      peakFlow: this.flows.peakAt ? { mm3PerS: this.flows.peakMm3PerS, at: this.flows.peakAt } : null,
      p95FlowMm3PerS: this.flows.quantile(0.95),
      ...this.layers.figures(),
      retractions: {
        count: this.retractions,
        byFirmware: this.firmwareRetractions,
        usualLengthMm: this.retractLengths.usual() ?? 0,
        usualSpeedMmPerS: this.retractSpeeds.usual() ?? 0,
        perMetreOfFilament: this.retractions / (this.filamentMm / 1000),
      },
      nozzle: this.nozzleFigures(),
      plateC: this.plateSeen,
      chamberC: this.chamberC,
      pauses: this.pauses,
      tools: [...this.tools].sort((a, b) => a - b),
      notes: [...this.notes],
    };
  }

  private nozzleFigures(): JobFigures['nozzle'] {
    const usualC = this.nozzle.usual();
    const range = this.nozzle.range();
    return usualC === null || !range ? null : { usualC, lowestC: range[0], highestC: range[1] };
  }

  private refuseLongLine(): never {
    throw new JobFileError(
      `line ${this.lines + 1} is longer than ${LONGEST_LINE / 1024} KiB: job files are text in short lines; this may be a compressed or binary file`,
    );
  }

  private take(bytes: Uint8Array, from: number, to: number): void {
    this.lines++;
    if (this.isNulAhead && bytes.subarray(from, to).includes(0)) {
      throw new JobFileError(
        `line ${this.lines} holds a NUL byte: this is a binary or damaged file, not plain G-code; export it as text`,
      );
    }
    const kind = this.line.read(bytes, from, to);
    if (kind === 'empty') return;
    if (kind === 'other') {
      this.others++;
      if (this.others + this.words === JUDGED_FROM_LINES) this.judge(false);
      return;
    }
    this.words++;
    if (this.others + this.words === JUDGED_FROM_LINES) this.judge(false);
    this.obey();
  }

  private judge(isAtEnd: boolean): void {
    const all = this.others + this.words;
    if (all === 0 && isAtEnd)
      throw new JobFileError(
        `${this.lines} lines were read and none is a command: job files hold lines like "G1 X10 E0.5"`,
      );
    if (this.others > MOST_OTHER_SHARE * all) {
      throw new JobFileError(
        `${this.others} of the first ${all} commands (to line ${this.lines}) are no G-code: job files hold lines like "G1 X10 E0.5"`,
      );
    }
  }

  private obey(): void {
    const { commandLetter, commandNumber } = this.line;
    if (commandLetter === G) this.obeyG(commandNumber);
    else if (commandLetter === M) this.obeyM(commandNumber);
    else if (commandLetter === T) this.tools.add(commandNumber);
    // Words alone repeat the last kind of move in RS-274; printers do not rely on that.
  }

  private obeyG(code: number): void {
    switch (code) {
      case 0:
      case 1:
        return this.move(0);
      case 2:
        return this.move(-1);
      case 3:
        return this.move(1);
      case 4:
        return this.dwell();
      case 10:
        // G10 with P or L sets offsets.
        if (!this.line.has('P') && !this.line.has('L')) this.retractByFirmware();
        return;
      case 11:
        this.isRetracted = false;
        return;
      case 20:
        this.unit = INCH_MM;
        return;
      case 21:
        this.unit = 1;
        return;
      case 28:
        return this.home();
      case 90:
        this.isAbsolute = true;
        this.isExtruderAbsolute = true;
        return;
      case 91:
        this.isAbsolute = false;
        this.isExtruderAbsolute = false;
        return;
      case 92:
        return this.setPosition();
    }
  }

  private obeyM(code: number): void {
    const { line } = this;
    const wanted = line.has('S') ? line.get('S') : line.get('R');
    switch (code) {
      case 0:
      case 1:
      case 600:
        return this.pause(null);
      case 82:
        this.isExtruderAbsolute = true;
        return;
      case 83:
        this.isExtruderAbsolute = false;
        return;
      case 104:
      case 109:
        if (wanted >= 0) this.nozzleC = wanted;
        return;
      case 106:
        // P names a fan; 0 is the part fan.
        if (!(line.get('P') > 0)) this.fan = line.has('S') ? Math.min(1, line.get('S') / 255) : 1;
        return;
      case 107:
        if (!(line.get('P') > 0)) this.fan = 0;
        return;
      case 140:
      case 190:
        if (wanted >= 0) this.plateC = wanted;
        if (wanted > 0) this.plateSeen = wanted;
        return;
      case 141:
      case 191:
        if (wanted > 0) this.chamberC = wanted;
        return;
    }
  }

  /** A straight move (0) or an arc, clockwise (-1) or against (1). */
  private move(turn: -1 | 0 | 1): void {
    const { line, unit } = this;
    const f = line.get('F');
    if (f > 0) this.feed = (f * unit) / 60;
    const x = this.target('X', this.x);
    const y = this.target('Y', this.y);
    const z = this.target('Z', this.z);
    const eWord = line.get('E');
    const e = Number.isNaN(eWord) ? this.e : this.isExtruderAbsolute ? eWord * unit : this.e + eWord * unit;
    const dz = z - this.z;
    const inPlane =
      turn === 0
        ? Math.hypot(x - this.x, y - this.y)
        : arcLengthMm({
            turn,
            fromX: this.x,
            fromY: this.y,
            toX: x,
            toY: y,
            i: line.has('I') ? line.get('I') * unit : null,
            j: line.has('J') ? line.get('J') * unit : null,
            r: line.has('R') ? line.get('R') * unit : null,
          });
    const distance = dz === 0 ? inPlane : Math.hypot(inPlane, dz);
    const de = e - this.e;
    this.x = x;
    this.y = y;
    this.z = z;
    this.e = e;
    const seconds = (distance > 0 ? distance : Math.abs(de)) / this.feed;
    if (de > 0 && inPlane > 0) this.extrude(seconds, inPlane, de, dz > 0);
    else this.go(seconds, inPlane, de);
  }

  private extrude(seconds: number, mm: number, filamentMm: number, isRising: boolean): void {
    const { layers, flows, lines } = this;
    this.isRetracted = false;
    if (layers.begin(this.z, isRising, lines, { nozzleC: this.nozzleC, plateC: this.plateC }))
      flows.flush(lines, layers.count - 1);
    const volume = filamentMm * this.area;
    this.seconds += seconds;
    this.filamentMm += filamentMm;
    this.volumeMm3 += volume;
    layers.pass(seconds, this.fan);
    layers.extrude(seconds, mm, filamentMm, volume);
    layers.flow(flows.add(volume, seconds, lines, layers.count));
    if (this.nozzleC !== null) this.nozzle.add(this.nozzleC, seconds);
  }

  /** Travel, retraction, or priming on the spot. */
  private go(seconds: number, inPlane: number, de: number): void {
    this.seconds += seconds;
    this.layers.pass(seconds, this.fan);
    if (de < 0) this.retract(-de);
    else if (de > 0) this.isRetracted = false;
    this.travelMm += inPlane;
  }

  private retract(mm: number): void {
    // Drawn back in several moves, as while wiping, it is still one.
    if (!this.isRetracted) {
      this.retractions++;
      this.retractMm = 0;
      this.retractSpeeds.add(this.feed);
    } else this.retractLengths.add(this.retractMm, -1);
    this.retractMm += mm;
    this.retractLengths.add(this.retractMm);
    this.isRetracted = true;
  }

  private retractByFirmware(): void {
    if (this.isRetracted) return;
    this.retractions++;
    this.firmwareRetractions++;
    this.isRetracted = true;
  }

  private dwell(): void {
    const { line } = this;
    const seconds = line.has('S') ? line.get('S') : line.get('P') / 1000;
    if (!(seconds > 0)) return;
    this.seconds += seconds;
    this.layers.pass(seconds, this.fan);
    if (seconds >= LONG_DWELL_SECONDS) this.pause(seconds);
  }

  private pause(seconds: number | null): void {
    if (this.pauses.length < MOST_PAUSES)
      this.pauses.push({ seconds, at: { line: this.lines, layer: this.layers.count } });
  }

  private home(): void {
    const { line } = this;
    const isAll = !line.has('X') && !line.has('Y') && !line.has('Z');
    if (isAll || line.has('X')) this.x = 0;
    if (isAll || line.has('Y')) this.y = 0;
    if (isAll || line.has('Z')) this.z = 0;
  }

  private setPosition(): void {
    const { line, unit } = this;
    if (line.has('X')) this.x = line.get('X') * unit;
    if (line.has('Y')) this.y = line.get('Y') * unit;
    if (line.has('Z')) this.z = line.get('Z') * unit;
    if (line.has('E')) this.e = line.get('E') * unit;
  }

  private target(letter: string, now: number): number {
    const word = this.line.get(letter);
    if (Number.isNaN(word)) return now;
    return this.isAbsolute ? word * this.unit : now + word * this.unit;
  }
}
