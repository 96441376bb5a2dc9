import { readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { z } from 'zod';
import { codeOf } from '../casebook/file-trouble.ts';
import { isDatabaseAddress } from '../casebook/postgres/database-address.ts';
import { writePrivateFile } from '../casebook/private-files.ts';
import { dataFolder } from './program-files.ts';

const placeSchema = z.strictObject({
  /** The address of a PostgreSQL database, or the path of a file. */
  casebook: z.string().min(1),
});

/** Where it is kept which casebook this user's Beadwright opens: for whoever starts it from a menu, and sets no environment. */
export function placeFile(environment: NodeJS.ProcessEnv): string {
  return path.join(dataFolder(environment), 'beadwright', 'settings.json');
}

/**
 * The environment with the casebook that is kept, where it says none itself. Throws in words where what is kept cannot be read:
 * another casebook in its place would look as if all were lost.
 */
export function withKeptPlace(environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  if (environment['BEADWRIGHT_DATABASE']?.trim() || environment['BEADWRIGHT_CASEBOOK']?.trim())
    return environment;
  const file = placeFile(environment);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return environment;
    throw new Error(`${file}, which says where the casebook is, cannot be read (${codeOf(error)}).`, {
      cause: error,
    });
  }
  const { casebook } = placeIn(text, file);
  return {
    ...environment,
    [isDatabaseAddress(casebook) ? 'BEADWRIGHT_DATABASE' : 'BEADWRIGHT_CASEBOOK']: casebook,
  };
}

/** Keeps a place, for the user's eyes only: an address may have a password in it. Null goes back to the usual file. */
export function keepPlace(environment: NodeJS.ProcessEnv, casebook: string | null): void {
  const file = placeFile(environment);
  if (casebook === null) {
    rmSync(file, { force: true });
    return;
  }
  writePrivateFile(file, `${JSON.stringify({ casebook }, null, 2)}\n`);
}

function placeIn(text: string, file: string): z.infer<typeof placeSchema> {
  try {
    return placeSchema.parse(JSON.parse(text));
  } catch (error) {
    throw new Error(
      `${file} is to say where the casebook is, as {"casebook": "postgres://…"} or {"casebook": "/path/to/casebook.sqlite"}, and does not. Say it anew with "beadwright casebook use".`,
      { cause: error },
    );
  }
}
