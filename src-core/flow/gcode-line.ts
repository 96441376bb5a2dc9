const SPACE = 32;
const TAB = 9;
const SEMICOLON = 59;
const OPEN = 40;
const CLOSE = 41;
const STAR = 42;
const PLUS = 43;
const MINUS = 45;
const DOT = 46;
const PERCENT = 37;
const ZERO = 48;
const NINE = 57;
const A = 65;
const Z = 90;

/** M commands whose rest of the line is text, not words: messages and file names (common firmware). */
const WITH_TEXT: ReadonlySet<number> = new Set([16, 23, 28, 30, 32, 33, 36, 38, 98, 117, 118, 291, 928]);

export type LineKind = 'empty' | 'words' | 'other';

/**
 * The words of one line of a job file: letters with numbers, as in RS-274/NGC and the RepRap dialect. Reused from line to
 * line, so that reading makes no waste. `;` and `(...)` begin comments, `N12` is a line number: passed over. `*71` is a checksum: all bytes
 * before it, exclusive-ored.
 */
export class GcodeLine {
  /** "G", "M" or "T" (its character code) and its number; -1 where the line has no command. */
  commandLetter = 0;
  commandNumber = -1;
  /** The line has a checksum, and another than its bytes give. */
  isChecksumWrong = false;
  private readonly values = new Float64Array(26);
  private present = 0;

  /** Whether a word with this letter ("X") is there; with or without a number. */
  has(letter: string): boolean {
    return (this.present & (1 << (letter.charCodeAt(0) - A))) !== 0;
  }

  /** The number of a word, NaN where it is not there or has none. */
  get(letter: string): number {
    return this.has(letter) ? (this.values[letter.charCodeAt(0) - A] as number) : NaN;
  }

  /** Reads bytes `from` to before `to`. "other" is a line that is no G-code: a macro, or damage. */
  read(bytes: Uint8Array, from: number, to: number): LineKind {
    this.commandNumber = -1;
    this.commandLetter = 0;
    this.present = 0;
    this.isChecksumWrong = false;
    let at = from;
    let isEmpty = true;
    while (at < to) {
      const byte = bytes[at] as number;
      if (byte === SPACE || byte === TAB || byte === 13) {
        at++;
        continue;
      }
      if (byte === SEMICOLON) break;
      if (byte === STAR) {
        this.isChecksumWrong =
          this.number(bytes, at + 1, to) > at + 1 && this.value !== checksumOf(bytes, from, at);
        break;
      }
      if (byte === PERCENT && isEmpty) break;
      if (byte === OPEN) {
        while (at < to && bytes[at] !== CLOSE) at++;
        at++;
        continue;
      }
      const letter = byte >= 97 && byte <= 122 ? byte - 32 : byte;
      if (letter < A || letter > Z) return 'other';
      isEmpty = false;
      at++;
      while (at < to && bytes[at] === SPACE) at++;
      const start = at;
      at = this.number(bytes, at, to);
      if (at === start) {
        // A letter followed by a letter is a name: "SET_…". A bare axis ("G28 X") stands alone.
        const next = at < to ? (bytes[at] as number) : SPACE;
        if (this.commandNumber < 0 || isNameByte(next)) return 'other';
        this.present |= 1 << (letter - A);
        this.values[letter - A] = NaN;
        continue;
      }
      if (letter === 78) continue;
      if (this.commandNumber < 0 && (letter === 71 || letter === 77 || letter === 84)) {
        this.commandLetter = letter;
        this.commandNumber = this.value;
        if (letter === 77 && WITH_TEXT.has(this.value)) return 'words';
        continue;
      }
      this.present |= 1 << (letter - A);
      this.values[letter - A] = this.value;
    }
    return isEmpty ? 'empty' : 'words';
  }

  private value = 0;

  /** Reads a number into `value`; returns where it ended, or where it began when there is none. */
  private number(bytes: Uint8Array, from: number, to: number): number {
    let at = from;
    let sign = 1;
    const first = at < to ? bytes[at] : 0;
    if (first === MINUS || first === PLUS) {
      if (first === MINUS) sign = -1;
      at++;
    }
    let whole = 0;
    let digits = 0;
    while (at < to) {
      const digit = (bytes[at] as number) - ZERO;
      if (digit < 0 || digit > NINE - ZERO) break;
      whole = whole * 10 + digit;
      digits++;
      at++;
    }
    let scale = 1;
    if (at < to && bytes[at] === DOT) {
      at++;
      while (at < to) {
        const digit = (bytes[at] as number) - ZERO;
        if (digit < 0 || digit > NINE - ZERO) break;
        whole = whole * 10 + digit;
        scale *= 10;
        digits++;
        at++;
      }
    }
    if (digits === 0) return from;
    this.value = (sign * whole) / scale;
    return at;
  }
}

function checksumOf(bytes: Uint8Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at++) sum ^= bytes[at] as number;
  return sum;
}

function isNameByte(byte: number): boolean {
  return (byte >= 65 && byte <= 90) || (byte >= 97 && byte <= 122) || byte === 95 || byte === 61;
}
