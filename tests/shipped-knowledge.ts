import path from 'node:path';
import { formatFault } from '../src-core/knowledge/fault.ts';
import type { Knowledge } from '../src-core/knowledge/knowledge.ts';
import { loadKnowledge } from '../src-core/knowledge/load.ts';
import { readKnowledgeFolder } from '../src-main/knowledge/read-folder.ts';

let loaded: Knowledge | null = null;

/** The guide as it ships, read once a test file. */
export function shippedKnowledge(): Knowledge {
  if (loaded) return loaded;
  const result = loadKnowledge(readKnowledgeFolder(path.join(import.meta.dirname, '..', 'knowledge')));
  if (!result.ok) throw new Error(result.faults.map(formatFault).join('\n'));
  loaded = result.knowledge;
  return loaded;
}
