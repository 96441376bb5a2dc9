import path from 'node:path';
import { today } from '../../src-core/knowledge/former-ids.ts';
import { observationLabel, remedyLabel } from '../../src-core/session/wording.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import {
  answerTo,
  readFoundCases,
  readFurtherCases,
  readOpenCases,
  type Answer,
  type RealCase,
} from './open-cases.ts';
import { scoreOf } from './score.ts';

// `node tests/open-cases/report.ts`: tables of what the program answers to each open real case.
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const percent = (probability: number) => `${Math.round(probability * 100)} %`;

printTable('a lead accepts', readOpenCases(), ({ lead }) => `${lead.accepts}: ${lead.because}`);
const further = readFurtherCases();
const answers = printTable('answerable', further, ({ answerable }) => (answerable ? 'yes' : 'no'));
printScore(
  'of these, answerable',
  answers.filter((_, index) => further[index]?.answerable),
);

printByFamily(further, answers);

for (const mapping of ['anew', 'again', 'third'] as const) {
  const cases = readFurtherCases(mapping);
  const given = cases.map((one) => answerTo(knowledge, one));
  printScore(`the same cases, mapped by others (${mapping})`, given);
  printScore(
    'of these, answerable',
    given.filter((_, index) => cases[index]?.answerable),
  );
}

for (const [name, parts] of [
  ['found in public threads, shown to whoever mended the guide', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]],
  ['found in public threads, not shown', [11]],
] as const) {
  const found = readFoundCases(parts);
  const given = found.map((one) => answerTo(knowledge, one));
  printScore(name, given);
  printScore(
    'of these, answerable',
    given.filter((_, index) => found[index]?.answerable),
  );
  printByFamily(found, given);
}

function printTable<T extends RealCase>(
  lastColumn: string,
  cases: readonly T[],
  last: (one: T) => string,
): Answer[] {
  console.log(`| case | confirmed (rank, probability) | first candidates | next step | ${lastColumn} |`);
  console.log('|---|---|---|---|---|');
  const given = cases.map((one) => {
    const answer = answerTo(knowledge, one);
    console.log(`| ${[one.id, ...columnsOf(answer), last(one)].join(' | ')} |`);
    return answer;
  });
  printScore('all', given);
  return given;
}

function columnsOf({ diagnosis, rank }: Answer): string[] {
  const confirmed = diagnosis.candidates[rank - 1];
  const { kind, id } = diagnosis.next;
  const next =
    kind === 'check' ? observationLabel(knowledge, id) : kind === 'remedy' ? remedyLabel(knowledge, id) : id;
  return [
    `${confirmed?.cause} (${rank}, ${percent(confirmed?.probability ?? 0)})`,
    diagnosis.candidates
      .slice(0, 3)
      .map(({ cause, probability }) => `${cause} ${percent(probability)}`)
      .join(', '),
    `${kind}: ${next}`,
  ];
}

function printScore(name: string, given: readonly Answer[]): void {
  const score = scoreOf(given);
  const kinds = [...score.nextKinds].map(([kind, count]) => `${kind} ${count}`).join(', ');
  console.log(
    `\n${name}: ${score.cases} cases; first ${percent(score.first)}, first three ${percent(score.firstThree)}, first ten ${percent(score.firstTen)}; mean reciprocal rank ${score.reciprocalRank.toFixed(3)}; next step: ${kinds}\n`,
  );
}

/** Where the answers are good and where not: by the family of the first accepted cause. */
function printByFamily(cases: readonly RealCase[], given: readonly Answer[]): void {
  const families = Map.groupBy(given.keys(), (index) => {
    const [accepted = ''] = cases[index]?.accepted ?? [];
    return knowledge.causes.get(today(knowledge.former.causes, accepted))?.family ?? 'unknown';
  });
  console.log(
    '| family of the cause | cases | first | first three | mean reciprocal rank |\n|---|---|---|---|---|',
  );
  for (const [family, indexes] of [...families].sort(([, a], [, b]) => b.length - a.length)) {
    const score = scoreOf(indexes.flatMap((index) => given[index] ?? []));
    console.log(
      `| ${family} | ${score.cases} | ${percent(score.first)} | ${percent(score.firstThree)} | ${score.reciprocalRank.toFixed(2)} |`,
    );
  }
}
