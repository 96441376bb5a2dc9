import path from 'node:path';
import { observationLabel, remedyLabel } from '../../src-core/session/wording.ts';
import { programVersion } from '../../src-main/hosting/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { answerTo, readOpenCases } from './open-cases.ts';

// `node tests/open-cases/report.ts`: a table of what the program answers to each open real case.
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const percent = (probability: number) => `${Math.round(probability * 100)} %`;
console.log('| case | confirmed (rank, probability) | first candidates | next step | a lead accepts |');
console.log('|---|---|---|---|---|');
const ranks: number[] = [];
for (const openCase of readOpenCases()) {
  const { diagnosis, rank } = answerTo(knowledge, openCase);
  ranks.push(rank);
  const confirmed = diagnosis.candidates[rank - 1];
  const first = diagnosis.candidates.slice(0, 3).map((one) => `${one.cause} ${percent(one.probability)}`);
  const { kind, id } = diagnosis.next;
  const next =
    kind === 'check' ? observationLabel(knowledge, id) : kind === 'remedy' ? remedyLabel(knowledge, id) : id;
  console.log(
    `| ${openCase.id} | ${confirmed?.cause} (${rank}, ${percent(confirmed?.probability ?? 0)}) | ${first.join(', ')} | ${kind}: ${next} | ${openCase.lead.accepts}: ${openCase.lead.because} |`,
  );
}
const within = (rank: number) => ranks.filter((one) => one > 0 && one <= rank).length;
console.log(
  `\nfirst ${within(1)}, first three ${within(3)}, first ten ${within(10)} of ${ranks.length}; mean rank ${(ranks.reduce((a, b) => a + b, 0) / ranks.length).toFixed(1)}`,
);
