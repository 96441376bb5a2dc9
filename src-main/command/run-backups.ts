import { UsageError } from './usage-error.ts';
import { withProgram } from './with-program.ts';

/** `backups list`, `backups make`, `backups restore NAME`. */
export async function runBackups(folder: string, args: readonly string[]): Promise<void> {
  const [what, name, ...more] = args;
  const flag = args.find((word) => word.startsWith('--'));
  if (flag) throw new UsageError(`backups knows no ${flag}`);
  if (more.length > 0 || (what === 'restore') !== (name !== undefined))
    throw new UsageError('backups takes list, make, or restore NAME');
  if (what !== 'list' && what !== 'make' && what !== 'restore')
    throw new UsageError(`backups takes list, make or restore, not "${what ?? ''}"`);
  await withProgram(folder, async (call) => {
    if (what === 'list') {
      const { backups, dumps } = await call('backup:list', {});
      if (dumps) {
        const { newest, make, putBack } = dumps;
        process.stdout.write(`newest dump: ${newest ? `${newest.name}, ${newest.at}` : 'none known'}\n`);
        process.stdout.write(`to make one: ${make}\nto put one back: ${putBack}\n`);
      }
      for (const backup of backups) {
        process.stdout.write(
          `${backup.name}  ${backup.bytes} bytes  ${backup.cases === null ? 'not readable' : `${backup.cases} cases`}\n`,
        );
      }
    } else if (what === 'make') {
      const { name: made } = await call('backup:make', {});
      process.stdout.write(`${made}\n`);
    } else {
      const { restored, keptAs } = await call('backup:restore', { name: name ?? '' });
      process.stdout.write(`${restored} is the casebook now; what was there is kept as ${keptAs}\n`);
    }
  });
}
