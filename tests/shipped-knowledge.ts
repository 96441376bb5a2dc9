import path from 'node:path';
import { checkKnowledge } from '../src-core/knowledge/check.ts';
import type { KnowledgeFault } from '../src-core/knowledge/fault.ts';
import type { Knowledge } from '../src-core/knowledge/knowledge.ts';
import type { KnowledgeFile } from '../src-core/knowledge/schema.ts';
import { parseKnowledge, type KnowledgeText } from '../src-core/knowledge/parse.ts';
import { programVersion } from '../src-main/bootstrap/program-files.ts';
import { readKnowledgeFolder } from '../src-main/knowledge/read-folder.ts';
import { readGuide, readKnowledge } from '../src-main/knowledge/read-knowledge.ts';

const root = path.join(import.meta.dirname, '..');

/** The files of the guide as it ships. */
export function shippedTexts() {
  return readKnowledgeFolder(path.join(root, 'knowledge'));
}

let loaded: Knowledge | null = null;

/** The guide as it ships, as the program itself reads it: what was checked is kept beside the build under its content hash. */
export function shippedKnowledge(): Knowledge {
  return (loaded ??= readKnowledge(root, programVersion(root)));
}

/** The same, parsed: for a guide as it may have been. */
export function shippedFiles(): readonly KnowledgeFile[] {
  return readGuide(root, programVersion(root)).files;
}

type Parsed = ReturnType<typeof parseKnowledge>;
const parsedByText = new Map<string, Parsed>();

/** What the checks say of the shipped guide with some texts changed. Files that stay as they are are read once a test file. */
export function faultsWithChanged(change: (text: KnowledgeText) => string): readonly KnowledgeFault[] {
  const parsed = shippedTexts().map((shipped) => {
    const text = change(shipped);
    if (text !== shipped.text) return parseKnowledge([{ file: shipped.file, text }]);
    const known = parsedByText.get(shipped.file) ?? parseKnowledge([shipped]);
    parsedByText.set(shipped.file, known);
    return known;
  });
  const faults = parsed.flatMap((one) => one.faults);
  return faults.length > 0 ? faults : checkKnowledge(parsed.flatMap(({ files }) => files));
}
