import { checkKnowledge } from './check.ts';
import { compileKnowledge } from './compile.ts';
import { contentHash } from './content-hash.ts';
import type { KnowledgeFault } from './fault.ts';
import type { Knowledge } from './knowledge.ts';
import { parseKnowledge, type KnowledgeText } from './parse.ts';
import type { KnowledgeFile } from './schema.ts';

/** Parses, checks and compiles the guide; any fault at all means no guide. */
export function loadKnowledge(
  texts: readonly KnowledgeText[],
):
  | { ok: true; knowledge: Knowledge; files: readonly KnowledgeFile[] }
  | { ok: false; faults: readonly KnowledgeFault[] } {
  const { files, faults } = parseKnowledge(texts);
  const all = [...faults, ...(faults.length === 0 ? checkKnowledge(files) : [])];
  if (all.length > 0) return { ok: false, faults: all };
  const contents = files.map((file) => file.content);
  return { ok: true, knowledge: compileKnowledge(contents, versionOf(texts)), files: contents };
}

/** Content hash of a guide: names and texts of all its files. `hash` is another maker of the same hash, where a host has one. */
export function versionOf(texts: readonly KnowledgeText[], hash = contentHash): string {
  return hash(texts.flatMap(({ file, text }) => [file, text]));
}
