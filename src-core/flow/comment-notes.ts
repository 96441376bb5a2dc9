/**
 * What a job file says of itself in its comments, as far as it can be told by the words of the trade: "nozzle diameter = 0.4",
 * "Material: ABS", "estimated time 1h 20m". No program's format is meant: a name, a mark (= or :) and a value, with the words
 * that anybody would use. What is said twice and differently counts as not said.
 */
export interface FileNotes {
  /** Bore that the file was made for, mm. */
  readonly nozzleMm: number | null;
  readonly filamentDiameterMm: number | null;
  /** Word for the material as it stands there: "ABS", "PA6-CF". */
  readonly material: string | null;
  /** Name of the settings it was made with, as it stands there. */
  readonly profile: string | null;
  /** Time that whoever made the file expects, s. */
  readonly seconds: number | null;
}

/** Comments looked at: settings stand at the beginning or the end, and many files comment every move. */
const FIRST_LOOKED_AT = 2000;
const LONGEST_COMMENT = 200;
const LONGEST_NAME = 80;
const SEMICOLON = 59;

type Note = keyof FileNotes;

/** Gathers the notes of a file, line by line; how the file is cut makes no difference. */
export class CommentNotes {
  private readonly said = new Map<Note, Set<string | number>>();
  private readonly last: string[] = [];
  private looked = 0;

  /** Takes a line, bytes `from` to before `to`; lines that are no comment are passed over. */
  take(bytes: Uint8Array, from: number, to: number): void {
    let at = from;
    while (at < to && ((bytes[at] as number) === 32 || (bytes[at] as number) === 9)) at++;
    if (bytes[at] !== SEMICOLON || to - at > LONGEST_COMMENT) return;
    if (this.looked < FIRST_LOOKED_AT) {
      this.looked++;
      this.read(textOf(bytes, at + 1, to));
      return;
    }
    // Of what comes later only the end of the file counts, which is known when it is there.
    this.last.push(textOf(bytes, at + 1, to));
    if (this.last.length > 2 * FIRST_LOOKED_AT) this.last.splice(0, FIRST_LOOKED_AT);
  }

  notes(): FileNotes {
    for (const comment of this.last.splice(0).slice(-FIRST_LOOKED_AT)) this.read(comment);
    const only = (note: Note) => {
      const values = [...(this.said.get(note) ?? [])];
      return values.length === 1 ? (values[0] ?? null) : null;
    };
    const number = (note: Note) => {
      const value = only(note);
      return typeof value === 'number' ? value : null;
    };
    const words = (note: Note) => {
      const value = only(note);
      return typeof value === 'string' ? value : null;
    };
    return {
      nozzleMm: number('nozzleMm'),
      filamentDiameterMm: number('filamentDiameterMm'),
      material: words('material'),
      profile: words('profile'),
      seconds: number('seconds'),
    };
  }

  private read(comment: string): void {
    const match = /^([^=:]{3,60})[=:](.{1,120})$/.exec(comment.trim());
    if (!match) return;
    const words = new Set((match[1] ?? '').toLowerCase().split(/[^a-z]+/));
    const value = (match[2] ?? '').trim();
    const hasAny = (...names: string[]) => names.some((name) => words.has(name));
    if (words.has('nozzle') && hasAny('diameter', 'size', 'bore')) this.addLengths('nozzleMm', value, 0.1, 2);
    else if (words.has('filament') && words.has('diameter'))
      this.addLengths('filamentDiameterMm', value, 1, 5);
    else if (isMaterialName(words)) this.addMaterial(value);
    else if (isProfileName(words)) this.addName('profile', value);
    else if (words.has('time') && hasAny('print', 'printing', 'estimated', 'build', 'total')) {
      const seconds = secondsIn(value);
      if (seconds !== null) this.add('seconds', seconds);
    }
  }

  /** A value for each tool stands there as a list. */
  private addLengths(note: Note, value: string, least: number, most: number): void {
    for (const one of value.split(/[,;]/)) {
      const mm = Number(one.replace(/mm\s*$/i, '').trim());
      if (one.trim() !== '' && mm >= least && mm <= most) this.add(note, mm);
    }
  }

  private addMaterial(value: string): void {
    for (const one of value.split(/[,;]/)) {
      const word = one.replace(/^["'\s]+|["'\s]+$/g, '');
      if (/^[a-z][a-z0-9 +/-]{1,19}$/i.test(word)) this.add('material', word);
    }
  }

  private addName(note: Note, value: string): void {
    const name = value.replace(/^["'\s]+|["'\s]+$/g, '');
    if (name.length <= LONGEST_NAME && /[\p{L}\p{N}]/u.test(name)) this.add(note, name);
  }

  private add(note: Note, value: string | number): void {
    const values = this.said.get(note) ?? new Set();
    values.add(value);
    this.said.set(note, values);
  }
}

/** "material", "filament type" and the like, and nothing more special ("filament type cost"). */
function isMaterialName(words: ReadonlySet<string>): boolean {
  const subject = words.has('material') || words.has('filament') || words.has('polymer');
  const others = [...words].filter(
    (word) => !['', 'material', 'filament', 'polymer', 'type', 'kind'].includes(word),
  );
  return subject && others.length === 0 && (words.has('material') || words.has('polymer') || words.size > 1);
}

/**
 * "profile", "print profile", "name of the profile" and the like. Whose profile it is has to be the print's: one of the filament or
 * the printer alone does not tell which settings the job was made with.
 */
function isProfileName(words: ReadonlySet<string>): boolean {
  const others = ['', 'profile', 'print', 'printing', 'slicing', 'process', 'settings', 'name', 'of', 'the'];
  return words.has('profile') && [...words].every((word) => others.includes(word));
}

/** "1h 20m 3s", "1:20:03", "80 min" or plain seconds; null where it is none of these. */
function secondsIn(text: string): number | null {
  const clock = /^(\d{1,3}):(\d{2})(?::(\d{2}))?$/.exec(text);
  if (clock) return Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0);
  if (/^\d{1,8}(\.\d+)?\s*(s|sec|seconds)?$/i.test(text)) return Number.parseFloat(text);
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?)\s*(d|h|m|s)[a-z]*\.?/gi)];
  const rest = text.replace(/(\d+(?:\.\d+)?)\s*(d|h|m|s)[a-z]*\.?/gi, '').replace(/[\s,]|and/gi, '');
  if (parts.length === 0 || rest !== '') return null;
  return parts.reduce(
    (sum, [, count, unit]) => sum + Number(count) * (SECONDS[(unit ?? 's').toLowerCase()] ?? 0),
    0,
  );
}

const SECONDS: Readonly<Record<string, number>> = { d: 86_400, h: 3600, m: 60, s: 1 };

function textOf(bytes: Uint8Array, from: number, to: number): string {
  return new TextDecoder().decode(bytes.subarray(from, to));
}
