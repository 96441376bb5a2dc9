import { INITIALS } from '../../../src-core/contract/initials.ts';
import type { Words } from '../../../src-core/words/message.ts';
import { ulid } from 'ulid';
import type { IntakeInput } from '../../../src-core/contract/case-event.ts';
import { LONGEST_FILE_NAME, MOST_FILES } from '../../../src-core/contract/read-file-limits.ts';
import type { FileReading } from '../../../src-core/contract/job-report.ts';
import type { Printer, Spool } from '../../../src-core/contract/shop-records.ts';
import { forgetIn, keepIn, readKept } from '../../host/session-store.ts';

type Value = string | number;

/** Something that is there or not; the level is null where it is there and nobody said how bad it is. */
export interface DraftComplaint {
  readonly observation: string;
  readonly level: string | null;
}

/** What is kept over a reload. */
interface KeptDraft {
  readonly complaints: readonly DraftComplaint[];
  readonly printerId: string | null;
  readonly spoolId: string | null;
  readonly openedBy: string;
  readonly conditions: Readonly<Record<string, Value>>;
  readonly words: string;
  readonly files?: readonly ReadFile[];
  readonly noticed?: readonly DraftComplaint[];
  readonly tried?: readonly TriedBefore[];
  readonly caseId?: string;
  readonly profile?: string | null;
}

/** A remedy that was tried before the case was opened. */
export type TriedBefore = NonNullable<IntakeInput['tried']>[number];

type HowTried = Pick<TriedBefore, 'with' | 'reach'>;

/** A job file or temperature log that was read, and what it says. */
export interface ReadFile {
  readonly name: string;
  readonly readings: readonly FileReading[];
  /** Name of the print profile, where the file says one. */
  readonly profile?: string | null;
}

const STORE_KEY = 'beadwright.intake';

/** Where a known circumstance comes from. */
export type ConditionSource = 'printer' | 'spool' | 'file' | 'entered';

export interface KnownCondition {
  readonly value: Value;
  readonly source: ConditionSource;
}

/** A case before it is opened. Kept in `store` after every change (see `keep`), so that a reload loses nothing. */
export class IntakeDraft {
  complaints = $state.raw<readonly DraftComplaint[]>([]);
  printer = $state.raw<Printer | null>(null);
  spool = $state.raw<Spool | null>(null);
  openedBy = $state('');
  /** Entered here; these win over what printer and spool say. */
  entered = $state.raw<Readonly<Record<string, Value>>>({});
  words = $state('');
  /** Files read; a later one wins over an earlier. */
  files = $state.raw<readonly ReadFile[]>([]);

  /** Findings that nobody complains of: when, where, compared with what, and what is not there. */
  noticed = $state.raw<readonly DraftComplaint[]>([]);
  tried = $state.raw<readonly TriedBefore[]>([]);

  /** Name of the print profile as typed; null while nobody has, so that what a file says counts. */
  #typedProfile = $state<string | null>(null);

  /** What the case will be called: pressing Start twice, or again after a reload, opens it once. */
  caseId = ulid();

  /** How remedies were tried: it stays when own words are read again, which takes their tries out and in. */
  #how: Readonly<Record<string, HowTried>> = {};
  readonly #store: Storage | null;

  constructor(store: Storage | null) {
    this.#store = store;
  }

  /** Takes the kept draft up again; printers and spools that are gone are left out. */
  restore(printers: readonly Printer[], spools: readonly Spool[]): void {
    const kept = readKept(this.#store, STORE_KEY, isKept);
    if (!kept) return;
    this.complaints = kept.complaints;
    this.printer = printers.find((one) => one.id === kept.printerId) ?? null;
    this.spool = spools.find((one) => one.id === kept.spoolId) ?? null;
    this.openedBy = kept.openedBy;
    this.entered = kept.conditions;
    this.words = kept.words;
    this.files = kept.files ?? [];
    this.noticed = kept.noticed ?? [];
    this.tried = kept.tried ?? [];
    this.#how = Object.fromEntries(
      this.tried.map(({ remedy, with: part, reach }) => [
        remedy,
        { ...(part && { with: part }), ...(reach && { reach }) },
      ]),
    );
    this.#typedProfile = kept.profile ?? null;
    this.caseId = kept.caseId ?? this.caseId;
  }

  keep(): void {
    const kept: KeptDraft = {
      complaints: this.complaints,
      printerId: this.printer?.id ?? null,
      spoolId: this.spool?.id ?? null,
      openedBy: this.openedBy,
      conditions: this.entered,
      words: this.words,
      files: this.files,
      noticed: this.noticed,
      tried: this.tried,
      profile: this.#typedProfile,
      caseId: this.caseId,
    };
    keepIn(this.#store, STORE_KEY, kept);
  }

  /** Empties the draft, here and where it is kept. */
  forget(): void {
    forgetIn(this.#store, STORE_KEY);
    this.complaints = [];
    this.printer = null;
    this.spool = null;
    this.entered = {};
    this.words = '';
    this.files = [];
    this.noticed = [];
    this.tried = [];
    this.#how = {};
    this.#typedProfile = null;
    this.caseId = ulid();
  }

  /** Nothing but who enters it has been entered. */
  get isEmpty(): boolean {
    return (
      this.complaints.length + this.noticed.length + this.tried.length + this.files.length === 0 &&
      this.printer === null &&
      this.spool === null &&
      this.words.trim() === '' &&
      this.profile === '' &&
      Object.keys(this.entered).length === 0
    );
  }

  /** Picks or drops a complaint; how bad it is may be said afterwards, or left open. */
  pick(observation: string, isPicked: boolean): void {
    const others = this.complaints.filter((one) => one.observation !== observation);
    this.complaints = isPicked ? [...others, { observation, level: null }] : others;
  }

  /** Says how bad a complaint is, or with null that nobody said. */
  grade(observation: string, level: string | null): void {
    this.complaints = this.complaints.map((one) =>
      one.observation === observation ? { observation, level } : one,
    );
  }

  /** Notes or drops a finding that is no complaint. */
  notice(observation: string, level: string | null, isNoticed = true): void {
    const others = this.noticed.filter((one) => one.observation !== observation);
    this.noticed = isNoticed ? [...others, { observation, level }] : others;
  }

  /** Notes or drops a remedy that was tried before. */
  try(remedy: string, outcome: TriedBefore['outcome'], isTried = true): void {
    const others = this.tried.filter((one) => one.remedy !== remedy);
    this.tried = isTried ? [...others, { remedy, outcome, ...this.#how[remedy] }] : others;
  }

  /** Says which part went in or how far a setting was taken; empty where that is open again. */
  tryHow(remedy: string, how: HowTried): void {
    this.#how = { ...this.#how, [remedy]: how };
    this.tried = this.tried.map((one) =>
      one.remedy === remedy ? { remedy, outcome: one.outcome, ...how } : one,
    );
  }

  isPicked(observation: string): boolean {
    return this.complaints.some((one) => one.observation === observation);
  }

  choose(condition: string, value: Value | null): void {
    const others = Object.fromEntries(Object.entries(this.entered).filter(([id]) => id !== condition));
    this.entered = value === null ? others : { ...others, [condition]: value };
  }

  /** What is known about the case's circumstances: entered before spool before printer, as the host merges them. */
  get known(): Readonly<Record<string, KnownCondition>> {
    const known: Record<string, KnownCondition> = {};
    const take = (source: ConditionSource, values: Readonly<Record<string, Value | null>>) => {
      for (const [id, value] of Object.entries(values)) if (value !== null) known[id] = { value, source };
    };
    if (this.printer) {
      if (this.printer.printHours > 0) take('printer', { 'printer-hours': this.printer.printHours });
      take('printer', this.printer.conditions);
    }
    if (this.spool) {
      const { polymer, filler, fillerPercent, storage } = this.spool;
      take('spool', { polymer, filler, 'filler-percent': fillerPercent, storage });
    }
    take('file', this.#fromFiles('condition'));
    take('entered', this.entered);
    return known;
  }

  /** Takes what a file says; the same file again replaces what it said before. */
  addFile(file: ReadFile): void {
    this.files = [...this.files.filter(({ name }) => name !== file.name), file];
  }

  /** Name of the print profile: as typed, otherwise as the file read last says; empty where neither does. */
  get profile(): string {
    return this.#typedProfile ?? this.files.findLast((file) => file.profile)?.profile ?? '';
  }

  set profile(name: string) {
    this.#typedProfile = name;
  }

  removeFile(name: string): void {
    this.files = this.files.filter((file) => file.name !== name);
  }

  #fromFiles(kind: FileReading['kind']): Record<string, Value> {
    const readings = this.files.flatMap((file) => file.readings.filter((one) => one.kind === kind));
    return Object.fromEntries(readings.map(({ id, value }) => [id, value]));
  }

  /** Reasons of the conditions that files gave and nobody said otherwise. */
  #reasons(): Record<string, Words> {
    const readings = this.files.flatMap((file) => file.readings.filter((one) => one.kind === 'condition'));
    return Object.fromEntries(
      readings.filter(({ id }) => this.entered[id] === undefined).map(({ id, because }) => [id, because]),
    );
  }

  /** A file may be named with letters that nobody sees, which the casebook refuses. */
  #fileNames(): string[] {
    const named = this.files.map(({ name }) => name.replace(/\p{C}|\p{Zl}|\p{Zp}/gu, '').trim());
    return named
      .filter((name) => name !== '')
      .map((name) => name.slice(0, LONGEST_FILE_NAME))
      .slice(-MOST_FILES);
  }

  /** What is still missing before the case can start, or null. */
  get missing(): 'complaint' | 'initials' | null {
    if (this.complaints.length === 0) return 'complaint';
    return this.openedBy.trim() === '' || INITIALS.test(this.openedBy.trim()) ? null : 'initials';
  }

  /** The call's input; requires that nothing is missing. */
  toIntake(): IntakeInput {
    return {
      printerId: this.printer?.id ?? null,
      spoolId: this.spool?.id ?? null,
      openedBy: this.openedBy.trim() || null,
      ...(this.profile.trim() && { profile: this.profile.trim() }),
      ...(this.#fileNames().length > 0 && { files: this.#fileNames() }),
      conditions: { ...this.#fromFiles('condition'), ...this.entered },
      because: this.#reasons(),
      measured: [
        ...Object.entries(this.#fromFiles('finding')).map(([observation, value]) => ({ observation, value })),
        ...this.noticed.map(({ observation, level }) => ({ observation, value: level ?? 'present' })),
      ],
      ...(this.tried.length > 0 ? { tried: [...this.tried] } : {}),
      complaints: this.complaints.map(({ observation, level }) => ({
        observation,
        value: level ?? 'present',
      })),
      words: this.words,
    };
  }
}

/** Puts what another screen worked out into the kept draft, so that the next case begins with it. */
export function keepForIntake(
  store: Storage | null,
  file: ReadFile,
  entered: Readonly<Record<string, Value>>,
): void {
  const kept = readKept(store, STORE_KEY, isKept);
  const draft: KeptDraft = {
    complaints: kept?.complaints ?? [],
    printerId: kept?.printerId ?? null,
    spoolId: kept?.spoolId ?? null,
    openedBy: kept?.openedBy ?? '',
    words: kept?.words ?? '',
    conditions: { ...kept?.conditions, ...entered },
    noticed: kept?.noticed ?? [],
    tried: kept?.tried ?? [],
    profile: kept?.profile ?? null,
    files: [...(kept?.files ?? []).filter(({ name }) => name !== file.name), file],
  };
  keepIn(store, STORE_KEY, draft);
}

function isKept(value: unknown): value is KeptDraft {
  if (typeof value !== 'object' || value === null) return false;
  const { complaints, conditions, openedBy, words } = value as Partial<Record<keyof KeptDraft, unknown>>;
  return (
    Array.isArray(complaints) &&
    complaints.every(
      (one: unknown) => typeof one === 'object' && one !== null && 'observation' in one && 'level' in one,
    ) &&
    typeof conditions === 'object' &&
    conditions !== null &&
    typeof openedBy === 'string' &&
    typeof words === 'string'
  );
}
