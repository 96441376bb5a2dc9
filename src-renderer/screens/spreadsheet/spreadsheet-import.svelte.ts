import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';
import { NEEDED_FIELDS, type SpreadsheetField } from '../../../src-core/contract/spreadsheet-choices.ts';
import type {
  ImportRecord,
  SpreadsheetLook,
  SpreadsheetMapping,
  SpreadsheetReport,
  UnknownWord,
} from '../../../src-core/contract/spreadsheet-view.ts';
import { sentences } from '../../messages/lists.ts';
import { m } from '../../messages/en/spreadsheet.ts';

/** More characters than a call takes. */
const LARGEST = 16 * 1024 * 1024;

/** A shop's spreadsheet on its way into the casebook: looked at, tried, taken in, taken back. */
export class SpreadsheetImport {
  fileName = $state('');
  look = $state.raw<SpreadsheetLook | null>(null);
  mapping = $state.raw<SpreadsheetMapping | null>(null);
  /** Of the last try, or of the import; null once anything was changed since. */
  report = $state.raw<SpreadsheetReport | null>(null);
  imports = $state.raw<readonly ImportRecord[]>([]);
  undone = $state('');
  isBusy = $state(false);
  failure = $state.raw<ReplyError | null>(null);

  readonly #host: HostApi;
  #text = '';

  constructor(host: HostApi) {
    this.#host = host;
  }

  async readImports(): Promise<void> {
    const reply = await this.#host.call('spreadsheet:imports', {});
    if (reply.ok) this.imports = reply.value.imports;
    else this.failure = reply.error;
  }

  async open(file: File): Promise<void> {
    if (file.size > LARGEST) {
      this.failure = { code: 'bad-request', message: m.thisFileIsLargerThan16() };
      return;
    }
    await this.#alone(async () => {
      this.#text = await file.text();
      this.fileName = file.name;
      [this.look, this.mapping, this.report, this.undone] = [null, null, null, ''];
      const reply = await this.#host.call('spreadsheet:look', { fileName: file.name, text: this.#text });
      if (reply.ok) {
        this.look = reply.value;
        this.mapping = reply.value.mapping;
      }
      return reply;
    });
  }

  /** Fields that still lack a column. */
  get missing(): readonly SpreadsheetField[] {
    return NEEDED_FIELDS.filter((field) => this.mapping?.columns[field] === undefined);
  }

  /** Which column holds a field; empty for none. */
  setColumn(field: SpreadsheetField, column: string): void {
    if (!this.mapping) return;
    const others = Object.fromEntries(Object.entries(this.mapping.columns).filter(([one]) => one !== field));
    this.#change({ columns: column === '' ? others : { ...others, [field]: column } });
  }

  set(change: Partial<Pick<SpreadsheetMapping, 'dateOrder' | 'lostUnit'>>): void {
    this.#change(change);
  }

  /** What the shop means by a word; null for a cause that is named by hand, undefined for nothing chosen. */
  explain({ field, text }: UnknownWord, id: string | null | undefined): void {
    if (!this.mapping) return;
    const key = text.trim().replace(/\s+/g, ' ').toLowerCase();
    const before: Readonly<Record<string, string | null>> =
      field === 'complaint' ? this.mapping.complaints : this.mapping.causes;
    const others = Object.fromEntries(Object.entries(before).filter(([one]) => one !== key));
    const words = id === undefined ? others : { ...others, [key]: id };
    // The report stays: its other words are still to be explained.
    this.mapping = { ...this.mapping, [field === 'complaint' ? 'complaints' : 'causes']: words };
  }

  /** What was chosen for a word; undefined for nothing yet. */
  explained({ field, text }: UnknownWord): string | null | undefined {
    const key = text.trim().replace(/\s+/g, ' ').toLowerCase();
    return field === 'complaint' ? this.mapping?.complaints[key] : this.mapping?.causes[key];
  }

  run(isDryRun: boolean): Promise<void> {
    return this.#alone(async () => {
      const { mapping } = this;
      if (!mapping) return null;
      this.undone = '';
      const reply = await this.#host.call('spreadsheet:import', {
        fileName: this.fileName,
        text: this.#text,
        mapping,
        isDryRun,
      });
      if (reply.ok) this.report = reply.value;
      if (reply.ok && !isDryRun) await this.readImports();
      return reply;
    });
  }

  undo({ importId, fileName }: ImportRecord): Promise<void> {
    return this.#alone(async () => {
      const reply = await this.#host.call('spreadsheet:undo', { importId });
      if (reply.ok) {
        const { removed, kept, imports } = reply.value;
        this.imports = imports;
        this.report = null;
        this.undone = sentences([
          m.isTakenBackCasesAreGone({ fileName, removed }),
          kept === 0 ? '' : m.thatSomebodyWorkedOnSinceStay({ kept }),
        ]);
      }
      return reply;
    });
  }

  #change(change: Partial<SpreadsheetMapping>): void {
    if (!this.mapping) return;
    this.mapping = { ...this.mapping, ...change };
    this.report = null;
  }

  /** One thing at a time; a second press does nothing. */
  async #alone(work: () => Promise<Reply<unknown> | null>): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    this.failure = null;
    try {
      const reply = await work();
      this.failure = reply === null || reply.ok ? null : reply.error;
    } finally {
      this.isBusy = false;
    }
  }
}
