import { refusals } from '../../../src-core/words/en/refusals.ts';
import { rename, rm, writeFile } from 'node:fs/promises';
import { DomainError } from '../domain-error.ts';
import type { Handler } from '../dispatcher.ts';
import { makeReport } from './reports.ts';

/** Saves a report, or the screen that is shown, as PDF where somebody says; only a host with a window of its own can. */
export const reportSavePdf: Handler<'report:save-pdf'> = async (program, { what, paper, reader }, by) => {
  const { host } = program.paper;
  if (!host) throw new DomainError('refused', refusals.browserMakesPdf());
  const { html, name } =
    what.kind === 'report'
      ? await makeReport(program, what.about, reader, by)
      : { html: null, name: `beadwright-${what.name}` };
  const file = await host.askWhere(`${name}.pdf`);
  if (file === null) return { file: null };
  const pdf = await host.toPdf(html, paper);
  await writeWhole(file, pdf);
  return { file };
};

/** Either the whole file stands there, or what stood there before. */
async function writeWhole(file: string, bytes: Uint8Array): Promise<void> {
  const unfinished = `${file}.part`;
  try {
    await writeFile(unfinished, bytes);
    await rename(unfinished, file);
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => undefined);
    const reason = error instanceof Error ? error.message : String(error);
    throw new DomainError('refused', refusals.pdfNotWritten({ file, reason }));
  }
}
