import path from 'node:path';
import { formatFault } from '../src-core/knowledge/fault.ts';
import type { Knowledge } from '../src-core/knowledge/knowledge.ts';
import { loadKnowledge } from '../src-core/knowledge/load.ts';
import { readKnowledgeFolder } from '../src-main/knowledge/read-folder.ts';

/** The files of the guide as it ships. */
export function shippedTexts() {
  return readKnowledgeFolder(path.join(import.meta.dirname, '..', 'knowledge'));
}

let loaded: Knowledge | null = null;

/** The guide as it ships, read once a test file. */
export function shippedKnowledge(): Knowledge {
  if (loaded) return loaded;
  const result = loadKnowledge(shippedTexts());
  if (!result.ok) throw new Error(result.faults.map(formatFault).join('\n'));
  loaded = result.knowledge;
  return loaded;
}
