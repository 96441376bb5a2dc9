import { jobFaults } from '../words/en/job-faults.ts';
import { JobFileError } from './job-figures.ts';

const NEWLINE = 10;
const LONGEST_LINE = 64 * 1024;

/** Takes bytes `from` to before `to` of a line, its end left out. */
type TakeLine = (bytes: Uint8Array, from: number, to: number) => void;

/** Cuts pieces of a file into lines; however the file is cut into pieces, the lines are the same. */
export class LineCutter {
  lines = 0;
  bytes = 0;
  /** A NUL byte was pushed; lines are looked through for it only then. */
  private isNulAhead = false;
  /** The first line begins with a byte order mark of UTF-16. */
  private isUtf16 = false;
  private carry = new Uint8Array(0);
  private readonly takeLine: TakeLine;

  constructor(takeLine: TakeLine) {
    this.takeLine = takeLine;
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

  /** Takes what is left after the last line end; true where there was something. */
  end(): boolean {
    const last = this.carry;
    this.carry = new Uint8Array(0);
    if (last.length === 0) return false;
    this.take(last, 0, last.length);
    return true;
  }

  private take(bytes: Uint8Array, start: number, to: number): void {
    if (to - start > LONGEST_LINE) this.refuseLongLine();
    this.lines++;
    // Some editors put a byte order mark before the first line.
    const isMarked =
      this.lines === 1 && bytes[start] === 0xef && bytes[start + 1] === 0xbb && bytes[start + 2] === 0xbf;
    const from = isMarked ? start + 3 : start;
    const [first, second] = [bytes[start], bytes[start + 1]];
    if (this.lines === 1)
      this.isUtf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
    if (this.isNulAhead && bytes.subarray(from, to).includes(0)) {
      throw new JobFileError(this.isUtf16 ? jobFaults.utf16() : jobFaults.nulByte({ line: this.lines }));
    }
    this.takeLine(bytes, from, to);
  }

  private refuseLongLine(): never {
    throw new JobFileError(jobFaults.longLine({ line: this.lines + 1, kib: LONGEST_LINE / 1024 }));
  }
}
