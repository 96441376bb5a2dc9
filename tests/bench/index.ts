import path from 'node:path';
import type { GraphEvidence } from '../../src-core/inference/graph-model.ts';
import { infer } from '../../src-core/inference/infer.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { planOf, rankCauses, reasonAbout } from '../../src-core/session/reason-about.ts';
import { programVersion } from '../../src-main/hosting/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { bayesjsNetwork, bayesjsPosterior } from '../peers/bayesjs-peer.ts';
import { cutModel } from '../peers/cut-model.ts';
import { webpplPosterior } from '../peers/webppl-peer.ts';
import { medianMs } from './median.ts';

// `npm run bench`: median times at the shipped guide, and against independent libraries where they can do the work.
const root = path.join(import.meta.dirname, '..', '..');
const knowledge = readKnowledge(root, programVersion(root));
const { causes, mechanisms, observations } = knowledge.graph;
console.log(
  `shipped guide: ${causes.length} causes, ${mechanisms.length} mechanisms, ${observations.length} observations`,
);

const PRESENT = {
  'popping-while-loading': 'heavy',
  'vapour-at-head': 'slight',
  'bubbly-free-air-extrusion': 'heavy',
  'weak-layer-bonds': 'slight',
  stringing: 'slight',
  'rough-matt-surface': 'slight',
};
const ABSENT = {
  'gear-clicks': 'absent',
  'other-spool-clean': 'absent',
  'only-on-purge': 'absent',
  'keeps-oozing-at-rest': 'none',
  'repeated-nozzle-clog': 'absent',
  'worse-at-higher-flow': 'absent',
};

function contextOf(findings: Record<string, string>): CaseContext {
  const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];
  return {
    ...emptyContext,
    intake: { printerId: null, spoolId: null, openedBy: null, conditions: {}, complaints, words: '' },
    conditions: { polymer: 'abs', 'nozzle-mm': 0.8, storage: 'open' },
    findings,
  };
}

for (const [name, findings] of [
  ['1 present', { 'popping-while-loading': 'heavy' }],
  ['6 present, 6 absent', { ...PRESENT, ...ABSENT }],
] as const) {
  const context = contextOf(findings);
  const problem = caseProblem(knowledge, context);
  console.log(`\nfindings: ${name}`);
  print(
    'posterior of all causes and mechanisms',
    medianMs(() => infer(problem.model, problem.priors, problem.evidence)),
  );
  print(
    'ranking',
    medianMs(() => rankCauses(knowledge, context)),
  );
  print(
    'next step (all checks and remedies)',
    medianMs(() => planOf(problem)),
  );
  print(
    'whole answer with reasons and conflict',
    medianMs(() => reasonAbout(knowledge, context)),
  );
}

console.log(
  '\nagainst independent libraries, same network and evidence (full tables, so a corner of the guide)',
);
const CORNERS = [
  [
    'wet-filament',
    'nozzle-temperature-too-high',
    'partial-nozzle-clog',
    'heat-creep',
    'retraction-too-short',
    'part-fan-too-strong',
  ],
  [
    'wet-filament',
    'nozzle-temperature-too-high',
    'partial-nozzle-clog',
    'heat-creep',
    'retraction-too-short',
    'part-fan-too-strong',
    'worn-nozzle',
    'temperature-low-for-speed',
    'drive-gear-worn',
    'idler-tension-low',
  ],
];
const SIGNS: readonly (readonly [string, number])[] = [
  ['popping-while-loading', 1],
  ['vapour-at-head', 0],
  ['stringing', 2],
  ['weak-layer-bonds', 1],
];
for (const ids of CORNERS) {
  const indices = ids.map((id) => knowledge.causeIndex.get(id) ?? -1);
  const model = cutModel(knowledge.graph, indices, 8);
  const priors = indices.map((index) => knowledge.priorsUnder({}).priors[index] ?? 0);
  const evidence = SIGNS.flatMap(([id, level]): GraphEvidence[] => {
    const observation = model.observations.findIndex((one) => one.id === id);
    return observation < 0 ? [] : [{ observation, kind: 'level', level }];
  });
  console.log(
    `\n${model.causes.length} causes, ${model.mechanisms.length} mechanisms, ${model.observations.length} observations, ${evidence.length} findings`,
  );
  const ours = medianMs(() => infer(model, priors, evidence), 101);
  print('ours', ours);
  const network = bayesjsNetwork(model, priors);
  const byBayesjs = medianMs(() => bayesjsPosterior(model, network, evidence), 3);
  print('bayesjs, junction tree', byBayesjs, ours);
  if (ids.length <= 6) {
    const times = Array.from({ length: 3 }, () => webpplPosterior(model, priors, evidence).milliseconds).sort(
      (a, b) => a - b,
    );
    print('webppl, exact enumeration, compiling included', times[1] ?? NaN, ours);
  } else {
    console.log('  webppl, exact enumeration: left out, 2^(causes + mechanisms) worlds take minutes');
  }
}

function print(what: string, milliseconds: number, ours?: number): void {
  const ratio = ours === undefined ? '' : `  ${(milliseconds / ours).toFixed(0)} times ours`;
  console.log(`  ${what.padEnd(48)} ${milliseconds.toFixed(2).padStart(9)} ms${ratio}`);
}
