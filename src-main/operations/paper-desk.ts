import type { PaperSize } from '../../src-core/contract/report-choices.ts';

/** What a host with a window of its own can do for paper. */
export interface PaperHost {
  /** Asks where a PDF is to be saved; null where it is not wanted any more. */
  askWhere(fileName: string): Promise<string | null>;
  /** An HTML document of one file as PDF, or the screen that is shown (null). */
  toPdf(html: string | null, size: PaperSize): Promise<Uint8Array>;
}

/** Where a host that has a window says so, once the window is there. A browser prints by itself. */
export class PaperDesk {
  #host: PaperHost | null = null;

  get host(): PaperHost | null {
    return this.#host;
  }

  connect(host: PaperHost): void {
    this.#host = host;
  }
}
