import path from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { knowledgeFileSchema } from '../../src-core/knowledge/schema.ts';
import { programVersion } from '../hosting/program-files.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { readKnowledgeFolder } from '../knowledge/read-folder.ts';
import { knowledgeList } from './knowledge-list.ts';
import { networkXml } from './knowledge-network.ts';
import { requireCaseFile } from './require-case-file.ts';
import { UsageError } from './usage-error.ts';

/** `knowledge list [--json]`, `check [FOLDER]`, `schema`, `export-network [--conditions CASE.yaml]`. */
export function runKnowledge(folder: string, args: readonly string[]): void {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { json: { type: 'boolean' }, conditions: { type: 'string' } },
    allowPositionals: true,
  });
  const [what, where] = positionals;
  if (what === 'list') printList(folder, values.json === true);
  else if (what === 'check') checkFolder(path.resolve(where ?? path.join(folder, 'knowledge')));
  else if (what === 'schema') {
    // For editors: what a file of knowledge/ may hold.
    process.stdout.write(
      `${JSON.stringify(z.toJSONSchema(knowledgeFileSchema, { io: 'input' }), null, 2)}\n`,
    );
  } else if (what === 'export-network') exportNetwork(folder, values.conditions);
  else throw new UsageError(`knowledge takes list, check, schema or export-network, not "${what ?? ''}"`);
}

/** Prints the network for other tools; of a case file only the conditions count, which move the priors. */
function exportNetwork(folder: string, caseFile: string | undefined): void {
  const knowledge = readKnowledge(folder, programVersion(folder));
  const conditions = caseFile === undefined ? {} : requireCaseFile(caseFile, knowledge).conditions;
  process.stdout.write(networkXml(knowledge, conditions));
}

function printList(folder: string, isJson: boolean): void {
  const list = knowledgeList(readKnowledge(folder, programVersion(folder)));
  if (isJson) {
    process.stdout.write(`${JSON.stringify(list, null, 2)}\n`);
    return;
  }
  for (const [name, entries] of Object.entries(list)) {
    process.stdout.write(`${name} (${entries.length})\n`);
    for (const { id, label } of entries) process.stdout.write(`  ${id}  ${label}\n`);
  }
}

function checkFolder(folder: string): void {
  const loaded = loadKnowledge(readKnowledgeFolder(folder));
  if (!loaded.ok) {
    for (const fault of loaded.faults) process.stdout.write(`${formatFault(fault)}\n`);
    process.stdout.write(`${loaded.faults.length} ${loaded.faults.length === 1 ? 'fault' : 'faults'}\n`);
    process.exitCode = 1;
    return;
  }
  const { knowledge } = loaded;
  const counts = [
    `${knowledge.observations.size} observations`,
    `${knowledge.causes.size} causes`,
    `${knowledge.mechanisms.size} mechanisms`,
    `${knowledge.remedies.size} remedies`,
    `${knowledge.materials.size} materials`,
    `${knowledge.practices.size} practices`,
  ];
  process.stdout.write(`no faults: ${counts.join(', ')} (version ${knowledge.version})\n`);
}
