import { arcLengthMm } from './arc-length.ts';
import { flowTexts } from '../words/en/flow.ts';
import { jobFaults } from '../words/en/job-faults.ts';
import { celsius, decimalsOf, type Message } from '../words/message.ts';
import { filamentAreaMm2 } from './bead.ts';
import { CommentNotes } from './comment-notes.ts';
import { Coordinates } from './coordinates.ts';
import { FlowWindows } from './flow-windows.ts';
import { GcodeLine } from './gcode-line.ts';
import { JobFileError, type JobFigures } from './job-figures.ts';
import { Layers } from './layers.ts';
import { LineCutter } from './line-cutter.ts';
import { Retractions } from './retractions.ts';
import { Histogram } from './histogram.ts';
import { Tools } from './tools.ts';

const { m } = flowTexts;

const INCH_MM = 25.4;
/** Feed rate before any is given, mm/s; only lines before the first F are timed with it. */
const UNGIVEN_FEED_MM_PER_S = 25;
/** Dwells from this long count as pauses. */
const LONG_DWELL_SECONDS = 10;
const MOST_PAUSES = 200;
/** A file with more of other lines than this share is no job file. */
const MOST_OTHER_SHARE = 0.3;
const JUDGED_FROM_LINES = 200;
/** No machine moves or feeds further in one move, mm; what says so is damaged. */
const FURTHEST_MOVE_MM = 1e5;
const FASTEST_FEED = 1e9;
const HOTTEST_C = 1000;
const LONGEST_DWELL_SECONDS = 1e7;
const G = 71;
const M = 77;
const T = 84;

export interface JobReaderOptions {
  /** Filament diameter, mm. */
  readonly filamentDiameterMm: number;
}

/**
 * Reads a job file of any size piece by piece: `push` what comes, `end` for the figures. Plain G-code: G0 to G3, G4, G10,
 * G11, G17 to G21, G28, G90 to G92, G90.1, G91.1, M82, M83, M104, M109, M106, M107, M140, M190, M141, M191, M200, M0, M1, M600, T (NIST
 * RS-274/NGC and the RepRap dialect). Of comments only what they say of nozzle, material and
 * time counts (`CommentNotes`). How the file is cut into pieces makes no difference.
 *
 * A `JobFileError` names the line where something cannot be a job.
 */
export class JobReader {
  private readonly line = new GcodeLine();
  private readonly area: number;
  private readonly cutter = new LineCutter((bytes, from, to) => this.take(bytes, from, to));
  private others = 0;
  private firstOther = 0;
  private firstWrongChecksum = 0;
  private words = 0;

  private x = 0;
  private y = 0;
  private z = 0;
  private e = 0;
  private feed = UNGIVEN_FEED_MM_PER_S;
  private unit = 1;
  /** Area by which E words are divided: M200 D gives E as a volume. */
  private eArea: number | null = null;
  private readonly coordinates = new Coordinates();
  private isPlaneXy = true;
  private fan = 0;
  private plateC: number | null = null;
  private chamberC: number | null = null;
  private plateSeen: number | null = null;

  private get lines(): number {
    return this.cutter.lines;
  }

  private seconds = 0;
  private extrudedMm = 0;
  private travelMm = 0;
  private readonly retractions = new Retractions();
  private readonly nozzle = new Histogram(1);
  private readonly flows = new FlowWindows();
  private readonly layers = new Layers();
  private readonly pauses: JobFigures['pauses'][number][] = [];
  private readonly tools = new Tools();
  private readonly comments = new CommentNotes();
  private readonly notes = new Map<string, Message>();

  constructor({ filamentDiameterMm }: JobReaderOptions) {
    this.area = filamentAreaMm2(filamentDiameterMm);
  }

  /** Takes the next piece. */
  push(piece: Uint8Array): void {
    this.cutter.push(piece);
  }

  /** The figures of all that was pushed. Throws where it was no job. */
  end(): JobFigures {
    if (this.cutter.end()) this.note(m.cutOff());
    this.judge(true);
    this.layers.flow(this.flows.flush(this.lines, this.layers.count));
    this.layers.close();
    if (!(this.extrudedMm > 0)) {
      throw new JobFileError(jobFaults.noExtrusion({ lines: this.lines }));
    }
    if (this.tools.isSomeHot) this.note(m.nozzleStillHot());
    if (this.firstWrongChecksum > 0) this.note(m.checksumWrong({ line: this.firstWrongChecksum }));
    const layers = this.layers.figures();
    if (layers.layerCount > layers.layers.length)
      this.note(m.layersKept({ kept: layers.layers.length, count: layers.layerCount }));
    const filamentMm = this.tools.usedMm;
    return {
      lines: this.lines,
      bytes: this.cutter.bytes,
      seconds: this.seconds,
      filamentMm,
      volumeMm3: filamentMm * this.area,
      travelMm: this.travelMm,
      peakFlow: this.flows.peakAt ? { mm3PerS: this.flows.peakMm3PerS, at: this.flows.peakAt } : null,
      p95FlowMm3PerS: this.flows.quantile(0.95),
      ...layers,
      retractions: this.retractions.figures(filamentMm),
      nozzle: this.nozzleFigures(),
      plateC: this.plateSeen,
      chamberC: this.chamberC,
      pauses: this.pauses,
      tools: this.tools.numbersChosen,
      said: this.comments.notes(),
      notes: [...this.notes.values()],
    };
  }

  private nozzleFigures(): JobFigures['nozzle'] {
    const usualC = this.nozzle.usual();
    const range = this.nozzle.range();
    return usualC === null || !range ? null : { usualC, lowestC: range[0], highestC: range[1] };
  }

  /** Ends the reading at a value that no machine is told. */
  private refuseValue(what: Message): never {
    throw new JobFileError(jobFaults.damagedAt({ line: this.lines, what }));
  }

  private take(bytes: Uint8Array, from: number, to: number): void {
    const kind = this.line.read(bytes, from, to);
    if (this.line.isChecksumWrong && this.firstWrongChecksum === 0) this.firstWrongChecksum = this.lines;
    if (kind === 'empty') {
      this.comments.take(bytes, from, to);
      return;
    }
    if (kind === 'other') {
      this.others++;
      if (this.firstOther === 0) this.firstOther = this.lines;
      if (this.others + this.words === JUDGED_FROM_LINES) this.judge(false);
      return;
    }
    this.words++;
    if (this.others + this.words === JUDGED_FROM_LINES) this.judge(false);
    this.obey();
  }

  private judge(isAtEnd: boolean): void {
    const all = this.others + this.words;
    if (all === 0 && isAtEnd) throw new JobFileError(jobFaults.noCommand({ lines: this.lines }));
    if (this.others > MOST_OTHER_SHARE * all) {
      throw new JobFileError(
        jobFaults.noGcode({ others: this.others, all, line: this.lines, first: this.firstOther }),
      );
    }
  }

  private obey(): void {
    const { commandLetter, commandNumber } = this.line;
    if (commandLetter === G) this.obeyG(commandNumber);
    else if (commandLetter === M) this.obeyM(commandNumber);
    else if (commandLetter === T) this.tools.choose(commandNumber);
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
        if (!this.line.has('P') && !this.line.has('L')) this.retractions.drawBackByFirmware();
        return;
      case 11:
        return this.retractions.push();
      case 17:
      case 18:
      case 19:
        this.isPlaneXy = code === 17;
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
      case 91:
        return this.coordinates.setAll(code === 90);
      case 90.1:
      case 91.1:
        this.coordinates.isCentreAbsolute = code === 90.1;
        return;
      case 92:
        return this.setPosition();
    }
  }

  private obeyM(code: number): void {
    const { line } = this;
    switch (code) {
      case 0:
      case 1:
      case 600:
        return this.pause(null);
      case 82:
      case 83:
        return this.coordinates.setExtruder(code === 82);
      case 200:
        return this.setVolumetric();
      case 104:
      case 109:
        if (this.wantedC() >= 0) this.tools.heat(this.wantedC(), line.get('T') >= 0 ? line.get('T') : null);
        return;
      case 106:
        // P names a fan; 0 is the part fan.
        if (!(line.get('P') > 0)) this.fan = line.get('S') >= 0 ? Math.min(1, line.get('S') / 255) : 1;
        return;
      case 107:
        if (!(line.get('P') > 0)) this.fan = 0;
        return;
      case 140:
      case 190:
        if (this.wantedC() >= 0) this.plateC = this.wantedC();
        if (this.wantedC() > 0) this.plateSeen = this.wantedC();
        return;
      case 141:
      case 191:
        if (this.wantedC() > 0) this.chamberC = this.wantedC();
        return;
    }
  }

  /** Temperature of an M104 and its like; NaN where none is given. */
  private wantedC(): number {
    const wanted = this.line.get(this.line.has('S') ? 'S' : 'R');
    if (wanted > HOTTEST_C)
      this.refuseValue(
        jobFaults.setPoint({ wanted: celsius(wanted, decimalsOf(wanted)), most: celsius(HOTTEST_C) }),
      );
    return wanted;
  }

  /** A straight move (0) or an arc, clockwise (-1) or against (1). */
  private move(turn: -1 | 0 | 1): void {
    const { line, unit } = this;
    const { isCentreAbsolute } = this.coordinates;
    const f = line.get('F');
    if (f > FASTEST_FEED) this.refuseValue(jobFaults.noFeedRate({ rate: f }));
    if (f > 0) this.feed = (f * unit) / 60;
    const x = this.target('X', this.x);
    const y = this.target('Y', this.y);
    const z = this.target('Z', this.z);
    const e = this.extruderTarget();
    if (turn !== 0 && !this.isPlaneXy) this.note(m.arcsTakenAsStraight());
    const dz = z - this.z;
    const inPlane =
      turn === 0 || !this.isPlaneXy
        ? Math.hypot(x - this.x, y - this.y)
        : arcLengthMm({
            turn,
            fromX: this.x,
            fromY: this.y,
            toX: x,
            toY: y,
            i: line.has('I') ? line.get('I') * unit - (isCentreAbsolute ? this.x : 0) : null,
            j: line.has('J') ? line.get('J') * unit - (isCentreAbsolute ? this.y : 0) : null,
            r: line.has('R') ? line.get('R') * unit : null,
          });
    const distance = dz === 0 ? inPlane : Math.hypot(inPlane, dz);
    const de = e - this.e;
    if (!(distance < FURTHEST_MOVE_MM && Math.abs(de) < FURTHEST_MOVE_MM))
      this.refuseValue(jobFaults.move({ distance, filament: de }));
    this.tools.feed(de);
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
    const { nozzleC } = this.tools;
    this.retractions.push();
    if (layers.begin(this.z, isRising, lines, { nozzleC, plateC: this.plateC }))
      flows.flush(lines, layers.count - 1);
    const volume = filamentMm * this.area;
    this.seconds += seconds;
    this.extrudedMm += filamentMm;
    layers.pass(seconds, this.fan);
    layers.extrude(seconds, mm, filamentMm, volume);
    layers.flow(flows.add(volume, seconds, lines, layers.count));
    if (nozzleC !== null) this.nozzle.add(nozzleC, seconds);
  }

  /** Travel, retraction, or priming on the spot. */
  private go(seconds: number, inPlane: number, de: number): void {
    this.seconds += seconds;
    this.layers.pass(seconds, this.fan);
    if (de < 0) this.retractions.drawBack(-de, this.feed);
    else if (de > 0) this.retractions.push();
    this.travelMm += inPlane;
  }

  /** Where E goes, mm of filament. */
  private extruderTarget(): number {
    const word = this.line.get('E');
    if (Number.isNaN(word)) return this.e;
    if (this.coordinates.isExtruderInDoubt) this.sayExtruderDoubt();
    const mm = this.ofExtruder(word);
    return this.coordinates.isExtruderAbsolute ? mm : this.e + mm;
  }

  /** mm of filament of an E word: a length, or with M200 a volume. */
  private ofExtruder(word: number): number {
    return this.eArea === null ? word * this.unit : (word * this.unit ** 3) / this.eArea;
  }

  /** M200: E is a volume of filament of diameter D; D0 or S0 makes it a length again. */
  private setVolumetric(): void {
    const { line } = this;
    const diameter = line.get('D') * this.unit;
    if (diameter === 0 || line.get('S') === 0) this.eArea = null;
    else this.eArea = diameter > 0 ? filamentAreaMm2(diameter) : this.area;
  }

  private sayExtruderDoubt(): void {
    this.coordinates.isExtruderInDoubt = false;
    this.note(m.extruderInDoubt());
  }

  /** Said once, however often it is met. */
  private note(message: Message): void {
    this.notes.set(message.id, message);
  }

  private dwell(): void {
    const { line } = this;
    const seconds = line.has('S') ? line.get('S') : line.get('P') / 1000;
    if (!(seconds > 0)) return;
    if (seconds > LONGEST_DWELL_SECONDS) this.refuseValue(jobFaults.dwell({ seconds }));
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

  /** G92; a bare letter sets 0. */
  private setPosition(): void {
    const { line, unit } = this;
    const set = (letter: string, now: number) => (line.has(letter) ? (line.get(letter) || 0) * unit : now);
    this.x = set('X', this.x);
    this.y = set('Y', this.y);
    this.z = set('Z', this.z);
    if (line.has('E')) this.e = this.ofExtruder(line.get('E') || 0);
  }

  private target(letter: string, now: number): number {
    const word = this.line.get(letter);
    if (Number.isNaN(word)) return now;
    return this.coordinates.isAbsolute ? word * this.unit : now + word * this.unit;
  }
}
