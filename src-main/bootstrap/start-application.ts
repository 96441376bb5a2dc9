import path from 'node:path';
import type { Caller } from '../../src-core/contract/calls.ts';
import { Casebook, type CasebookOptions } from '../casebook/casebook.ts';
import { readGuide } from '../knowledge/read-knowledge.ts';
import { createApplicationContext, type ApplicationContext } from '../operations/application-context.ts';
import { clearOldBin } from '../operations/handlers/bin.ts';
import { reasonerInWorkers } from '../reasoning/worker-reasoner.ts';
import { engineVersion } from './engine-version.ts';
import { casebookFile, reasoningWorker, programVersion } from './program-files.ts';

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
  const casebook = new Casebook(casebookFile(environment), now, options);
  await casebook.open();
  const program = createApplicationContext({
    host,
    programVersion: version,
    engineVersion: engine,
    knowledge,
    guideFiles: () => files,
    casebook,
    resourcesFolder: path.join(folder, 'resources'),
    // Nobody waits beside a command, and one started from its sources has no built worker.
    ...(host !== 'command' && {
      reasoner: reasonerInWorkers(reasoningWorker(folder), { folder, programVersion: version }),
    }),
    now,
  });
  if (host !== 'command') await clearOldBin(program);
  return program;
}
