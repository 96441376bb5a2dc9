import path from 'node:path';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { readKnowledgeFolder } from '../knowledge/read-folder.ts';

const loaded = loadKnowledge(readKnowledgeFolder(path.resolve('knowledge')));
if (!loaded.ok) {
  for (const fault of loaded.faults) console.log(formatFault(fault));
  console.log(`${loaded.faults.length} faults`);
  process.exitCode = 1;
} else {
  const { knowledge: k } = loaded;
  console.log(`observations ${k.observations.size}, causes ${k.causes.size}, mechanisms ${k.mechanisms.size}, remedies ${k.remedies.size}, materials ${k.materials.size}, practices ${k.practices.size}, conditions ${k.conditions.size}`);
}
