import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';

// `node migrate.ts FILE [kill]`: brings a casebook to today's form. "kill": dies in the midst of it, as nothing a program could
// put right would let it.
const [file = '', mode] = process.argv.slice(2);
const casebook = new FileCasebook(file, () => new Date(), {
  makesBackups: false,
  onMigrating: () => {
    if (mode === 'kill') process.kill(process.pid, 'SIGKILL');
  },
});
await casebook.open();
if (!casebook.isOpen) throw new Error(casebook.problem);
await casebook.close();
