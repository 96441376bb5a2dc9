import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { formatFault, type KnowledgeFault } from '../../src-core/knowledge/fault.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { parseKnowledge } from '../../src-core/knowledge/parse.ts';
import { placeEntries } from '../../src-core/knowledge/placed-lists.ts';
import { knowledgeFileSchema } from '../../src-core/knowledge/schema.ts';
import {
  checkReliedOn,
  checkShippedIds,
  idsNotYetKept,
  withTodaysIds,
} from '../../src-core/knowledge/shipped-ids.ts';
import { checkThoroughly } from '../../src-core/knowledge/thorough/check-thoroughly.ts';
import { programVersion } from '../bootstrap/program-files.ts';
import { readKnowledge } from '../knowledge/read-knowledge.ts';
import { readKnowledgeFolder } from '../knowledge/read-folder.ts';
import { knowledgeList } from './knowledge-list.ts';
import { networkXml } from './knowledge-network.ts';
import { requireCaseFile } from './require-case-file.ts';
import { UsageError } from './usage-error.ts';

/** Beside the guide's files: every id that has shipped. */
const IDS = 'ids.txt';
const DEFAULT_CASES = 300;
const MOST_CASES = 100_000;

/** `knowledge list [--json]`, `check [FOLDER] [--thorough [--cases N]]`, `keep-ids`, `schema`, `export-network [--conditions CASE.yaml]`. */
export function runKnowledge(folder: string, args: readonly string[]): void {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: {
      json: { type: 'boolean' },
      conditions: { type: 'string' },
      thorough: { type: 'boolean' },
      cases: { type: 'string' },
    },
    allowPositionals: true,
  });
  const [what, where] = positionals;
  if (what === 'list') printList(folder, values.json === true);
  else if (what === 'check') {
    const guide = path.resolve(where ?? path.join(folder, 'knowledge'));
    checkFolder(guide, thoroughCases(values.thorough === true, values.cases));
  } else if (what === 'schema') {
    // For editors: what a file of knowledge/ may hold.
    process.stdout.write(
      `${JSON.stringify(z.toJSONSchema(knowledgeFileSchema, { io: 'input' }), null, 2)}\n`,
    );
  } else if (what === 'keep-ids') keepIds(folder);
  else if (what === 'export-network') exportNetwork(folder, values.conditions);
  else
    throw new UsageError(
      `knowledge takes list, check, keep-ids, schema or export-network, not "${what ?? ''}"`,
    );
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

/** How many cases a thorough check simulates, or null for the ordinary check alone. */
function thoroughCases(isThorough: boolean, cases: string | undefined): number | null {
  if (!isThorough) {
    if (cases !== undefined) throw new UsageError('--cases belongs to check --thorough');
    return null;
  }
  const count = cases === undefined ? DEFAULT_CASES : Number(cases);
  if (!Number.isInteger(count) || count < 1 || count > MOST_CASES) {
    throw new UsageError(`--cases takes a whole number from 1 to ${MOST_CASES}, not "${cases ?? ''}"`);
  }
  return count;
}

function checkFolder(folder: string, cases: number | null): void {
  const texts = readKnowledgeFolder(folder);
  const loaded = loadKnowledge(texts);
  if (!loaded.ok) {
    printFaults(loaded.faults);
    return;
  }
  const { knowledge } = loaded;
  const kept = keptIds(folder);
  // A guide of somebody else's has neither shipped nor to serve this program's screens.
  const gone = kept === null ? [] : [...checkShippedIds(kept, knowledge), ...checkReliedOn(knowledge)];
  if (gone.length > 0) {
    printFaults(gone);
    return;
  }
  if (cases !== null) {
    const faults = checkThoroughly({ knowledge, lists: placeEntries(parseKnowledge(texts).files) }, cases);
    process.stdout.write(`remedies proposed: looked for in ${cases} simulated cases\n`);
    if (faults.length > 0) {
      printFaults(faults);
      return;
    }
  }
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

/** Adds this guide's ids to those that have shipped: done before a version goes out. */
function keepIds(folder: string): void {
  const guide = path.join(folder, 'knowledge');
  const knowledge = readKnowledge(folder, programVersion(folder));
  const before = keptIds(guide) ?? '';
  const added = idsNotYetKept(before, knowledge);
  writeFileSync(path.join(guide, IDS), withTodaysIds(before, knowledge));
  process.stdout.write(`${added.length} ids added to knowledge/${IDS}\n`);
}

function keptIds(guide: string): string | null {
  const file = path.join(guide, IDS);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}

function printFaults(faults: readonly KnowledgeFault[]): void {
  for (const fault of faults) process.stdout.write(`${formatFault(fault)}\n`);
  process.stdout.write(`${faults.length} ${faults.length === 1 ? 'fault' : 'faults'}\n`);
  process.exitCode = 1;
}
