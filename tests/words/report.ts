import path from 'node:path';
import { formatFault } from '../../src-core/knowledge/fault.ts';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { readKnowledgeFolder } from '../../src-main/knowledge/read-folder.ts';
import { phraseRanks, shareWithin, type PhraseRank } from './phrase-ranks.ts';

/** `node tests/words/report.ts [FOLDER OF A GUIDE]`: where the phrases of real cases find their observation. */
const folder = process.argv[2] ?? path.join(import.meta.dirname, '..', '..', 'knowledge');
const loaded = loadKnowledge(readKnowledgeFolder(folder));
if (!loaded.ok) throw new Error(loaded.faults.map(formatFault).join('\n'));
const ranks = phraseRanks(loaded.knowledge);

const line = (name: string, some: readonly PhraseRank[]) =>
  `${name.padEnd(12)}${String(some.length).padStart(4)} phrases: first ${percent(shareWithin(some, 1))}, first three ${percent(
    shareWithin(some, 3),
  )}, first five ${percent(shareWithin(some, 5))}\n`;
const percent = (share: number) => `${(share * 100).toFixed(0)} %`;

// What is held out is measured, not shown.
for (const { says, wanted, rank, instead, isHeldOut } of ranks) {
  if (rank <= 5 || isHeldOut) continue;
  process.stdout.write(`${String(rank).padStart(8)}  ${says}\n          wanted ${wanted.join(' or ')}; found ${instead.slice(0, 5).join(', ')}\n`);
}
process.stdout.write(line('all', ranks));
process.stdout.write(line('tuned on', ranks.filter((one) => !one.isHeldOut)));
process.stdout.write(line('held out', ranks.filter((one) => one.isHeldOut)));
