import path from 'node:path';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { disturbedKnowledge } from './disturb.ts';
import { play, type Played } from './play.ts';
import { brierScore, estimate, logScore, reliability, type Estimate } from './scores.ts';
import {
  checklist,
  entropyOnly,
  fullInformation,
  mostProbable,
  naiveBayes,
  planner,
  type Strategy,
} from './strategies.ts';

// `npm run simulate [-- CASES]`: seeded cases drawn from the shipped guide, worked through by the planner and by others.
const CASES = Number(process.argv[2] ?? 200);
const ROBUST_CASES = Math.ceil(CASES / 2);
const BIN_EDGES = [0, 0.02, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));

function playAll(
  strategy: Strategy,
  cases: number,
  believed: Knowledge = knowledge,
  wrongAnswerShare = 0,
): Played[] {
  return Array.from({ length: cases }, (_, index) =>
    play(knowledge, believed, strategy, index + 1, wrongAnswerShare),
  );
}

console.log(
  `${CASES} cases drawn from the guide; minutes include 240 for calling the lead where the complaint was not cured\n`,
);
console.log('| way of working | minutes to the end | checks | remedies | first verdict right | cured |');
console.log('|---|---|---|---|---|---|');
const byPlanner = playAll(planner, CASES);
printRow('planner', byPlanner);
for (const [name, strategy] of [
  ['fixed checklist', checklist],
  ['most probable cause first', mostProbable],
  ['one-fault naive Bayes', naiveBayes],
  ['entropy-only questions', entropyOnly],
  ['full information', fullInformation],
] as const) {
  printRow(name, playAll(strategy, CASES));
}

console.log(`\nrobustness, ${ROBUST_CASES} cases each, planner`);
console.log('| disturbance | minutes to the end | checks | remedies | first verdict right | cured |');
console.log('|---|---|---|---|---|---|');
printRow('none', byPlanner.slice(0, ROBUST_CASES));
printRow(
  'weights, log-odds sd 0.5',
  playAll(planner, ROBUST_CASES, disturbedKnowledge(knowledge, 0.5, seededRandom(5))),
);
printRow(
  'weights, log-odds sd 1.0',
  playAll(planner, ROBUST_CASES, disturbedKnowledge(knowledge, 1, seededRandom(10))),
);
printRow('10 % wrong answers', playAll(planner, ROBUST_CASES, knowledge, 0.1));

console.log('\ncalibration at the first verdict (all causes of all cases)');
const forecasts = byPlanner.flatMap((one) => one.forecasts);
for (const bin of reliability(forecasts, BIN_EDGES)) {
  if (bin.count === 0) continue;
  console.log(
    `  said ${percent(bin.from)} to ${percent(bin.to)}: ${String(bin.count).padStart(6)} forecasts, mean ${percent(bin.meanForecast)}, came true ${percent(bin.shareTrue)}`,
  );
}
console.log(`  Brier score ${figure(estimate(byPlanner.map((one) => brierScore(one.forecasts))), 5)}`);
console.log(`  log score ${figure(estimate(byPlanner.map((one) => logScore(one.forecasts))), 5)}`);

function printRow(name: string, played: readonly Played[]): void {
  const share = (isSo: (one: Played) => boolean) => percent(played.filter(isSo).length / played.length);
  console.log(
    `| ${[
      name,
      figure(estimate(played.map((one) => one.minutes)), 0),
      figure(estimate(played.map((one) => one.checks)), 1),
      figure(estimate(played.map((one) => one.remedies)), 1),
      share((one) => one.isFirstVerdictRight),
      share((one) => one.isCured),
    ].join(' | ')} |`,
  );
}

function figure({ mean, halfWidth }: Estimate, digits: number): string {
  return `${mean.toFixed(digits)} ± ${halfWidth.toFixed(digits)}`;
}

function percent(share: number): string {
  return `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;
}
