import path from 'node:path';
import type { Caller } from '../../src-core/contract/calls.ts';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { Casebook } from '../casebook/casebook.ts';
import { readKnowledgeFolder } from '../knowledge/read-folder.ts';
import { createProgram, type Program } from '../operations/program.ts';
import { casebookFile, programVersion } from './program-files.ts';

/** The guide from the program's folder; throws with every fault when it cannot be used. */
export function loadShippedKnowledge(folder: string): Knowledge {
  const loaded = loadKnowledge(readKnowledgeFolder(path.join(folder, 'knowledge')));
  if (!loaded.ok) throw new Error(`the guide has faults:\n${loaded.faults.map(formatFault).join('\n')}`);
  return loaded.knowledge;
}

/** Loads the guide, opens the casebook (or records why it cannot be opened) and hands the two out as a program. */
export async function startProgram(host: Caller, folder: string, environment: NodeJS.ProcessEnv): Promise<Program> {
  const knowledge = loadShippedKnowledge(folder);
  const now = () => new Date();
  const casebook = new Casebook(casebookFile(environment), now);
  await casebook.open();
  return createProgram({ host, programVersion: programVersion(folder), knowledge, casebook, resourcesFolder: path.join(folder, 'resources'), now });
}
