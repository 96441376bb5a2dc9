import path from 'node:path';
import type { Caller } from '../../src-core/contract/calls.ts';
import type { Casebook } from '../casebook/casebook.ts';
import { FileCasebook, type CasebookOptions } from '../casebook/file-casebook.ts';
import { databaseOf } from '../casebook/postgres/database-address.ts';
import { readGuide } from '../knowledge/read-knowledge.ts';
import { createApplicationContext, type ApplicationContext } from '../operations/application-context.ts';
import { clearOldBin } from '../operations/handlers/bin.ts';
import { reasonerInWorkers } from '../reasoning/worker-reasoner.ts';
import { engineVersion } from './engine-version.ts';
import { casebookFile, reasoningWorker, programVersion } from './program-files.ts';

/** Nobody needs to be told of what takes less. */
const SOON_MS = 2000;

/**
 * Loads the guide, opens the casebook (or records why it cannot be opened) and hands the two out as a program. Throws where
 * the guide or the program's own files are faulty; nothing is open then.
 */
export async function startApplication(
  host: Caller,
  folder: string,
  environment: NodeJS.ProcessEnv,
  options: CasebookOptions = {},
): Promise<ApplicationContext> {
  const version = programVersion(folder);
  const { knowledge, files } = readGuide(folder, version);
  const engine = engineVersion(folder);
  const now = () => new Date();
  const casebook = await casebookOf(environment, now, { onMigrating: sayHowFar(), ...options });
  await casebook.open();
  const program = createApplicationContext({
    host,
    programVersion: version,
    engineVersion: engine,
    knowledge,
    guideFiles: () => files,
    casebook,
    resourcesFolder: path.join(folder, 'resources'),
    languagesFolder: path.join(folder, 'out', 'renderer', 'languages'),
    // Nobody waits beside a command, and one started from its sources has no built worker.
    ...(host !== 'command' && {
      reasoner: reasonerInWorkers(reasoningWorker(folder), { folder, programVersion: version }),
    }),
    now,
  });
  if (host !== 'command') await clearOldBin(program);
  return program;
}

/** The casebook that the environment names: a database, or else a file. Throws in words where what it says is no address. */
async function casebookOf(
  environment: NodeJS.ProcessEnv,
  now: () => Date,
  options: CasebookOptions,
): Promise<Casebook> {
  const address = databaseOf(environment);
  if (address === null) return new FileCasebook(casebookFile(environment), now, options);
  // Loaded where it is needed: a casebook in a file does without.
  const { PostgresCasebook } = await import('../casebook/postgres/postgres-casebook.ts');
  return new PostgresCasebook(address, {
    now,
    dumpFolder: environment['BEADWRIGHT_DUMPS']?.trim() || null,
    ...(options.log && { log: options.log }),
  });
}

/** Says on the terminal how far a long migration is, at most every tenth; nothing where it is done at once. */
function sayHowFar(): (share: number) => void {
  const began = performance.now();
  let told = 0;
  return (share) => {
    if (performance.now() - began < SOON_MS || share < told + 0.1) return;
    told = share;
    console.error(`Bringing the casebook to today's form: ${Math.round(share * 100)} %`);
  };
}
