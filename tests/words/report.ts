import path from 'node:path';
import { parseKnowledge } from '../../src-core/knowledge/parse.ts';
import { NO_WORDS } from '../../src-core/knowledge/words-schema.ts';
import { readKnowledgeFolder } from '../../src-main/knowledge/read-folder.ts';
import { phraseRanks, shareWithin, type PhraseRank } from './phrase-ranks.ts';

/** `node tests/words/report.ts [FOLDER OF A GUIDE]`: where the phrases of real cases find their observation. */
const folder = process.argv[2] ?? path.join(import.meta.dirname, '..', '..', 'knowledge');
const { files, faults } = parseKnowledge(readKnowledgeFolder(folder));
if (faults.length > 0)
  process.stdout.write(
    `files with faults are left out: ${[...new Set(faults.map(({ file }) => file))].join(', ')}\n`,
  );
const contents = files.map(({ content }) => content);
const ranks = phraseRanks(
  contents.flatMap(({ observations = [] }) => observations),
  contents.find(({ words }) => words)?.words ?? NO_WORDS,
);

const line = (name: string, some: readonly PhraseRank[]) =>
  `${name.padEnd(14)}${String(some.length).padStart(4)} phrases: first ${percent(shareWithin(some, 1))}, first three ${percent(
    shareWithin(some, 3),
  )}, first five ${percent(shareWithin(some, 5))}\n`;
const percent = (share: number) => `${(share * 100).toFixed(0)} %`;

// What is held out is measured, not shown.
for (const { says, wanted, rank, instead, isHeldOut } of ranks) {
  if (rank <= 5 || isHeldOut) continue;
  process.stdout.write(
    `${String(rank).padStart(8)}  ${says}\n          wanted ${wanted.join(' or ')}; found ${instead.slice(0, 5).join(', ')}\n`,
  );
}
process.stdout.write(line('all', ranks));
process.stdout.write(
  line(
    'tuned on',
    ranks.filter((one) => !one.isHeldOut),
  ),
);
process.stdout.write(
  line(
    'held out',
    ranks.filter((one) => one.isHeldOut),
  ),
);
process.stdout.write(
  line(
    'of them later',
    ranks.filter((one) => one.isLater),
  ),
);
