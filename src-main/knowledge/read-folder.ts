import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { KnowledgeText } from '../../src-core/knowledge/parse.ts';

/** Every YAML file below `folder` except reference cases, in path order, named from the folder's own name on. */
export function readKnowledgeFolder(folder: string): KnowledgeText[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.split(path.sep).join('/'))
    .filter((file) => file.endsWith('.yaml') && !file.startsWith('reference-cases/'))
    .sort()
    .map((file) => ({
      file: `${path.basename(folder)}/${file}`,
      text: readFileSync(path.join(folder, file), 'utf8'),
    }));
}
