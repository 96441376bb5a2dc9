import { randomUUID } from 'node:crypto';
import { BrowserWindow, dialog } from 'electron';
import type { PaperHost } from '../operations/paper-desk.ts';
import { APP_ADDRESS } from './our-frame.ts';

/** Where documents that are being printed are served from, under the program's own address. */
const DOCUMENTS = '/document/';

/** Documents that are being printed, by an address that nobody guesses and that goes with the print. */
export class PrintedDocuments {
  readonly #pages = new Map<string, string>();

  /** The document at this path of the app's address; null where there is none (any more). */
  at(pathname: string): string | null {
    return pathname.startsWith(DOCUMENTS)
      ? (this.#pages.get(pathname.slice(DOCUMENTS.length)) ?? null)
      : null;
  }

  async during<T>(html: string, work: (address: string) => Promise<T>): Promise<T> {
    const id = randomUUID();
    this.#pages.set(id, html);
    try {
      return await work(new URL(DOCUMENTS + id, APP_ADDRESS).href);
    } finally {
      this.#pages.delete(id);
    }
  }
}

/**
 * Paper by way of the window: the screen as it is shown, or a document in a window that nobody sees, without scripts and without
 * a way to call anything.
 */
export function paperHost(window: BrowserWindow, documents: PrintedDocuments): PaperHost {
  return {
    askWhere: async (fileName) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        title: 'Save as PDF',
        defaultPath: fileName,
        filters: [{ name: 'PDF', extensions: ['pdf'] }],
      });
      return canceled || !filePath ? null : filePath;
    },
    toPdf: (html, pageSize) => {
      const options = { pageSize, printBackground: true };
      if (html === null) return window.webContents.printToPDF(options);
      return documents.during(html, async (address) => {
        const unseen = new BrowserWindow({
          width: 800,
          height: 1100,
          show: false,
          webPreferences: {
            javascript: false,
            contextIsolation: true,
            sandbox: true,
            nodeIntegration: false,
          },
        });
        try {
          await unseen.loadURL(address);
          return await unseen.webContents.printToPDF(options);
        } finally {
          unseen.destroy();
        }
      });
    },
  };
}
