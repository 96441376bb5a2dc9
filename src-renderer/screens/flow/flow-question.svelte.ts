import type { FlowNumber } from '../../../src-core/contract/flow-numbers.ts';
import type { FlowQuestion, FlowQuestionInput, FlowSheet } from '../../../src-core/contract/flow-sheet.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';
import type { Printer, Spool } from '../../../src-core/contract/shop-records.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';
import { faultsOf, fieldNumber, fieldText, type FlowTexts } from './flow-input.ts';

/** A pause in typing after which the answer is asked for. */
const PAUSE_MS = 150;

/** A common line to start from; everything can be changed in the form. */
const START: FlowTexts = {
  lineWidthMm: '0.45',
  layerHeightMm: '0.2',
  speedMmPerS: '60',
  filamentDiameterMm: '1.75',
  nozzleMm: '0.4',
  fillerPercent: '',
  particleLengthMm: '',
  nozzleC: '',
};

interface Guide {
  /** Middle of the polymer's printing temperatures, °C; null where the guide has none. */
  readonly usualNozzleC: (polymer: string) => number | null;
  readonly unit: () => TemperatureUnit;
}

/** One line in the form, and what follows from it; the answer follows the typing and the last one wins. */
export class FlowSheetQuestion {
  texts = $state.raw<FlowTexts>(START);
  polymer = $state<string | null>(null);
  meltZone = $state<FlowQuestion['meltZone']>('short');
  /** The answer with the question that it answers. */
  answered = $state.raw<{ readonly question: FlowQuestion; readonly sheet: FlowSheet } | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  readonly faults = $derived.by(() => faultsOf(this.texts, this.#guide.unit()));

  readonly #host: HostApi;
  readonly #guide: Guide;
  #asked = 0;
  #pause: ReturnType<typeof setTimeout> | undefined;
  /** The temperature that came with the polymer: another polymer may replace it, but not one that somebody typed. */
  #usualText = '';

  constructor(host: HostApi, guide: Guide) {
    this.#host = host;
    this.#guide = guide;
  }

  type(field: FlowNumber, text: string): void {
    this.texts = { ...this.texts, [field]: text };
    this.askSoon();
  }

  choosePolymer(polymer: string | null): void {
    this.polymer = polymer;
    const { nozzleC } = this.texts;
    if (nozzleC.trim() === '' || nozzleC === this.#usualText) {
      const usual = polymer === null ? null : this.#guide.usualNozzleC(polymer);
      this.#usualText = fieldText('nozzleC', usual, this.#guide.unit());
      this.texts = { ...this.texts, nozzleC: this.#usualText };
    }
    this.askSoon();
  }

  chooseZone(meltZone: FlowQuestion['meltZone']): void {
    this.meltZone = meltZone;
    this.askSoon();
  }

  /** Fills in what the shop knows of a printer. */
  takePrinter({ conditions }: Pick<Printer, 'conditions'>): void {
    const bore = conditions['nozzle-mm'];
    if (typeof bore === 'number') this.type('nozzleMm', String(bore));
  }

  /** Fills in what the shop knows of a spool. */
  takeSpool(spool: Pick<Spool, 'polymer' | 'filamentDiameterMm' | 'filler' | 'fillerPercent'>): void {
    const percent = spool.filler === 'none' ? null : spool.fillerPercent;
    this.texts = {
      ...this.texts,
      filamentDiameterMm: String(spool.filamentDiameterMm),
      fillerPercent: percent === null ? '' : String(percent),
      // The length of the last spool's filler says nothing about this one's.
      particleLengthMm: '',
    };
    this.choosePolymer(spool.polymer);
  }

  askSoon(): void {
    this.stop();
    this.#pause = setTimeout(() => void this.ask(), PAUSE_MS);
  }

  /** Forgets a question that has not been asked yet. */
  stop(): void {
    clearTimeout(this.#pause);
  }

  async ask(): Promise<void> {
    // Whatever is under way answers a form that is no longer there.
    const turn = ++this.#asked;
    const question = this.#question();
    if (question === null) return;
    const reply = await this.#host.call('flow:sheet', question satisfies FlowQuestionInput);
    if (turn !== this.#asked) return;
    if (reply.ok) {
      this.answered = { question, sheet: reply.value };
      this.failure = null;
    } else this.failure = reply.error;
  }

  #question(): FlowQuestion | null {
    if (this.faults.size > 0) return null;
    const of = (field: FlowNumber) => fieldNumber(this.texts, field, this.#guide.unit());
    return {
      lineWidthMm: of('lineWidthMm') ?? NaN,
      layerHeightMm: of('layerHeightMm') ?? NaN,
      speedMmPerS: of('speedMmPerS') ?? NaN,
      filamentDiameterMm: of('filamentDiameterMm') ?? NaN,
      nozzleMm: of('nozzleMm') ?? NaN,
      polymer: this.polymer,
      meltZone: this.meltZone,
      fillerPercent: of('fillerPercent'),
      particleLengthMm: of('particleLengthMm'),
      nozzleC: of('nozzleC'),
    };
  }
}
