import path from 'node:path';
import { parseArgs } from 'node:util';
import { keepPlace, placeFile, withKeptPlace } from '../bootstrap/kept-place.ts';
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

/**
 * `casebook move --to postgres://…` or `--to FILE`: copies all of the casebook, and compares. What it was moved from stays.
 * `casebook use postgres://…`, `use FILE` or `use --usual`: which one is opened where the environment says none.
 */
export async function runCasebook(args: readonly string[]): Promise<void> {
  const { positionals, values } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { to: { type: 'string' }, usual: { type: 'boolean' } },
  });
  const [what, place, ...more] = positionals;
  if (what === 'use' && more.length === 0 && !values.to && (place !== undefined) !== (values.usual === true))
    return useFromNowOn(place ?? null);
  if (what !== 'move' || place !== undefined || !values.to || values.usual)
    throw new UsageError(
      'casebook takes move --to postgres://…, or move --to FILE; or use postgres://…, use FILE, or use --usual',
    );
  const to = values.to;
  const environment = withKeptPlace(process.env);
  const address = databaseOf(environment);
  const isToDatabase = isDatabaseAddress(to);
  if (!isToDatabase && address === null)
    throw new UsageError(
      'a casebook in a file is moved to a database: --to postgres://…. From a database, BEADWRIGHT_DATABASE names it',
      false,
    );
  if (to === address) throw new UsageError('that is where the casebook is', false);
  const from = await inWords(
    address === null ? sourceInFile(casebookFile(environment)) : sourceInDatabase(address),
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

function useFromNowOn(place: string | null): void {
  const kept = place === null || isDatabaseAddress(place) ? place : path.resolve(place);
  keepPlace(process.env, kept);
  const words =
    kept === null ? casebookFile({ ...process.env, BEADWRIGHT_CASEBOOK: '' }) : withoutPassword(kept);
  process.stdout.write(
    `${words} is the casebook from the next start on, of window, station and commands, where neither BEADWRIGHT_DATABASE nor BEADWRIGHT_CASEBOOK names another. It is kept in ${placeFile(process.env)}.\n`,
  );
}

function wayOn(address: string | null, file: string, from: string): string {
  const next =
    address === null
      ? `Start stations without BEADWRIGHT_DATABASE and with BEADWRIGHT_CASEBOOK=${file} from now on.`
      : `Start stations with BEADWRIGHT_DATABASE=${withoutPassword(address)} (and its password) from now on, or keep the place with "beadwright casebook use".`;
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
