import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { compileKnowledge } from '../../src-core/knowledge/compile.ts';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { loadKnowledge, versionOf } from '../../src-core/knowledge/load.ts';
import type { KnowledgeText } from '../../src-core/knowledge/parse.ts';
import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import { hashTexts } from './hash-texts.ts';
import { readKnowledgeFolder } from './read-folder.ts';

interface ParsedGuide {
  readonly version: string;
  /** Form of the cache and of the checks that its content passed. */
  readonly form: string;
  readonly files: readonly KnowledgeFile[];
}

/**
 * The shipped guide. Parsing and checking takes most of a second, so the checked content is kept beside the build
 * under its content hash; any change to any file, or to the program's own version, reads everything anew.
 * Throws with every fault when the guide cannot be used.
 */
export function readKnowledge(folder: string, programVersion: string): Knowledge {
  return readGuide(folder, programVersion).knowledge;
}

/** The same with the parsed files, which the casebook keeps under the guide's version. */
export function readGuide(
  folder: string,
  programVersion: string,
): { readonly knowledge: Knowledge; readonly files: readonly KnowledgeFile[] } {
  const texts = readKnowledgeFolder(path.join(folder, 'knowledge'));
  const version = versionOf(texts, hashTexts);
  const form = hashTexts([programVersion, ...checkerTexts(folder)]);
  const cacheFile = path.join(folder, 'out', 'guide.json');
  const kept = readCache(cacheFile);
  if (kept?.version === version && kept.form === form)
    return { knowledge: compileKnowledge(kept.files, version), files: kept.files };
  return parseAnew(texts, (files) => writeCache(cacheFile, { version, form, files }));
}

function parseAnew(texts: readonly KnowledgeText[], keep: (files: readonly KnowledgeFile[]) => void) {
  const loaded = loadKnowledge(texts);
  if (!loaded.ok) throw new Error(`the guide has faults:\n${loaded.faults.map(formatFault).join('\n')}`);
  keep(loaded.files);
  return { knowledge: loaded.knowledge, files: loaded.files };
}

/** While the program runs from its sources, a changed schema or check counts as a changed guide. */
function checkerTexts(folder: string): string[] {
  try {
    const checkers = path.join(folder, 'src-core', 'knowledge');
    return readdirSync(checkers)
      .filter((file) => file.endsWith('.ts'))
      .sort()
      .map((file) => readFileSync(path.join(checkers, file), 'utf8'));
  } catch {
    return [];
  }
}

function readCache(file: string): ParsedGuide | null {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as ParsedGuide;
  } catch {
    return null;
  }
}

function writeCache(file: string, guide: ParsedGuide): void {
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    const unfinished = `${file}.${process.pid}.part`;
    writeFileSync(unfinished, JSON.stringify(guide));
    renameSync(unfinished, file);
  } catch {
    // A read-only installation starts a little slower, that is all.
  }
}
