import { sql } from 'kysely';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { savePrinter } from '../../src-main/casebook/printer.repository.ts';

// `node write-and-tell.ts FILE COUNT [off]`: keeps printers in a casebook and tells of each once it is acknowledged, then
// waits to be killed. "off" turns synchronous off, for the proof that the test would notice.
const [file = '', count = '0', mode] = process.argv.slice(2);
const casebook = new FileCasebook(file, () => new Date(), { makesBackups: false });
await casebook.open();
if (!casebook.isOpen) throw new Error(casebook.problem);
if (mode === 'off') await sql`pragma synchronous = off`.execute(casebook.db);
for (let number = 0; number < Number(count); number++) {
  const id = `P${number}`;
  const printer = { id, label: id, conditions: {}, printHours: 0, note: '', isRetired: false, isDemo: false };
  await casebook.db.transaction().execute((db) => savePrinter(db, printer, new Date().toISOString()));
  console.log(`kept ${id}`);
}
console.log('all kept');
setInterval(() => undefined, 1000);
