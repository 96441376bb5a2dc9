import path from 'node:path';
import { parseArgs } from 'node:util';
import { casebookFile } from '../bootstrap/program-files.ts';
import { moveCasebook } from '../casebook/move/move-casebook.ts';
import {
  sourceInDatabase,
  sourceInFile,
  targetInDatabase,
  targetInFile,
} from '../casebook/move/move-ends.ts';
import { databaseOf, isDatabaseAddress, withoutPassword } from '../casebook/postgres/database-address.ts';
import { UsageError } from './usage-error.ts';

/** `casebook move --to postgres://…` or `--to FILE`: copies all of the casebook, and compares. What it was moved from stays. */
export async function runCasebook(args: readonly string[]): Promise<void> {
  const { positionals, values } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { to: { type: 'string' } },
  });
  if (positionals.length !== 1 || positionals[0] !== 'move' || !values.to)
    throw new UsageError('casebook takes move --to postgres://…, or move --to FILE');
  const to = values.to;
  const address = databaseOf(process.env);
  const isToDatabase = isDatabaseAddress(to);
  if (!isToDatabase && address === null)
    throw new UsageError(
      'a casebook in a file is moved to a database: --to postgres://…. From a database, BEADWRIGHT_DATABASE names it',
      false,
    );
  if (to === address) throw new UsageError('that is where the casebook is', false);
  const from = await inWords(
    address === null ? sourceInFile(casebookFile(process.env)) : sourceInDatabase(address),
  );
  try {
    const target = await inWords(isToDatabase ? targetInDatabase(to) : targetInFile(path.resolve(to)));
    try {
      const { rows, cases, photos } = await moveCasebook(from, target, (words) =>
        process.stderr.write(`${words}\n`),
      );
      process.stdout.write(
        `${cases} cases, ${rows} rows in all and ${photos} photos are in ${target.place}, and were compared with ${from.place}.\n`,
      );
      process.stdout.write(wayOn(isToDatabase ? to : null, path.resolve(to), from.place));
    } finally {
      await target.close();
    }
  } finally {
    await from.close();
  }
}

function wayOn(address: string | null, file: string, from: string): string {
  const next =
    address === null
      ? `Start stations without BEADWRIGHT_DATABASE and with BEADWRIGHT_CASEBOOK=${file} from now on.`
      : `Start stations with BEADWRIGHT_DATABASE=${withoutPassword(address)} (and its password) from now on.`;
  return `${next} What is in ${from} stays as it is; nothing that is entered from now on goes there.\n`;
}

/** What keeps an end from being used is nothing that a stack would explain. */
async function inWords<T>(end: Promise<T>): Promise<T> {
  try {
    return await end;
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error), false);
  }
}
