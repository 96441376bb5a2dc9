import path from 'node:path';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { answerTo, CASE_KINDS, readReferenceCases, shareWithin, type Answer } from './reference-cases.ts';

// `node tests/reference-cases/report.ts`: what the program answers to each reference case, and the shares by kind.
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const percent = (share: number) => `${Math.round(share * 100)} %`;
const answered = readReferenceCases().map((one) => ({ one, answer: answerTo(knowledge, one) }));

console.log('| case | kind | best accepted (rank, probability) | first candidates | next step |');
console.log('|---|---|---|---|---|');
for (const { one, answer } of answered) {
  const { candidates, next } = answer.diagnosis;
  const best = candidates[answer.rank - 1];
  const first = candidates.slice(0, 3).map(({ cause, probability }) => `${cause} ${percent(probability)}`);
  console.log(
    `| ${[
      one.id,
      one.kind,
      `${best?.cause} (${answer.rank}, ${percent(best?.probability ?? 0)})`,
      first.join(', '),
      `${next.kind} ${next.id} (${answer.isNextAccepted ? 'accepted' : 'not accepted'})`,
    ].join(' | ')} |`,
  );
}

console.log('\n| kind | cases | first | first three | mean rank | next step accepted |');
console.log('|---|---|---|---|---|---|');
for (const kind of CASE_KINDS) {
  printRow(
    kind,
    answered.filter(({ one }) => one.kind === kind).map(({ answer }) => answer),
  );
}
printRow(
  'all',
  answered.map(({ answer }) => answer),
);

function printRow(name: string, answers: readonly Answer[]): void {
  const ranks = answers.map(({ rank }) => rank);
  const meanRank = ranks.reduce((sum, rank) => sum + rank, 0) / ranks.length;
  const nextShare = answers.filter(({ isNextAccepted }) => isNextAccepted).length / answers.length;
  console.log(
    `| ${[
      name,
      answers.length,
      percent(shareWithin(ranks, 1)),
      percent(shareWithin(ranks, 3)),
      meanRank.toFixed(1),
      percent(nextShare),
    ].join(' | ')} |`,
  );
}
