import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { PosteriorCache } from '../../src-core/inference/queries/posterior-cache.ts';
import { historyOf } from '../../src-core/inference/queries/repair-probability.ts';
import type { GraphEvidence } from '../../src-core/inference/network/graph-model.ts';
import { infer } from '../../src-core/inference/queries/infer.ts';
import { emptyContext, type CaseContext } from '../../src-core/session/case-machine.ts';
import { caseProblem } from '../../src-core/session/case-problem.ts';
import { caseScenarios } from '../../src-core/planning/case-scenarios.ts';
import { planCase } from '../../src-core/planning/plan-case.ts';
import { planOf, posteriorOf, rankCauses, reasonAbout } from '../../src-core/session/reason-about.ts';
import { secondThoughts } from '../../src-core/session/second-thoughts.ts';
import { programVersion } from '../../src-main/bootstrap/program-files.ts';
import { readKnowledge } from '../../src-main/knowledge/read-knowledge.ts';
import { bayesjsNetwork, bayesjsPosterior } from '../peers/bayesjs-peer.ts';
import { cutModel } from '../peers/cut-model.ts';
import { buildDlibPeer, dlibPosterior } from '../peers/dlib-peer.ts';
import { webpplPosterior } from '../peers/webppl-peer.ts';
import { allocatedMegabytes } from './allocated.ts';
import { medianMs } from './median.ts';
import { benchAnswers } from './answers.ts';
import { benchJobFile } from './job-file.ts';
import { MOISTURE_WORK } from './moisture.ts';
import { sweepOf } from './sweep.ts';
import { syntheticCase } from './synthetic-case.ts';

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
  const { belief } = problem;
  if (!belief) throw new Error('too wide');
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
    'ranking and next step, from nothing',
    medianMs(() => {
      const one = caseProblem(knowledge, context);
      return [posteriorOf(one), planOf(one)];
    }),
  );
  const options = { history: historyOf(problem.complaint, problem.history) };
  const found = caseScenarios(
    problem.model,
    problem.priors,
    problem.evidence,
    problem.complaint,
    options,
    belief,
  );
  if (found.kind === 'ok') {
    const sweep = () => sweepOf(problem, found);
    print('sweep: value of every open check', medianMs(sweep));
    console.log(
      `  ${'allocated by the sweep'.padEnd(48)} ${allocatedMegabytes(sweep).toFixed(2).padStart(9)} MB`,
    );
  } else {
    console.log('  sweep: not measured, as the plan sets findings aside here (its network is too wide)');
  }
  // As in a session: all findings but the last have been reasoned about before.
  const before = contextOf(Object.fromEntries(Object.entries(findings).slice(0, -1)));
  print(
    'whole answer with reasons and conflict, in a session',
    medianMs(
      (memory) => reasonAbout(knowledge, context, memory),
      31,
      () => {
        const memory = new PosteriorCache(problem.model);
        if (Object.keys(before.findings).length > 0) reasonAbout(knowledge, before, memory);
        return memory;
      },
    ),
  );
  print(
    'the same from nothing',
    medianMs(() => reasonAbout(knowledge, context, new PosteriorCache(problem.model))),
  );
  print(
    'second thoughts: rivals, mind changers, tipping points',
    medianMs(() => secondThoughts(knowledge, context), 5),
  );
}

{
  const large = syntheticCase(7, 12, 20);
  const { model, priors, evidence } = large;
  console.log(
    `\nsynthetic: ${model.causes.length} causes, ${model.mechanisms.length} mechanisms, ${model.observations.length} observations, 12 present, 20 absent`,
  );
  print(
    'posterior of all causes and mechanisms',
    medianMs(() => infer(model, priors, evidence), 15),
  );
  print(
    'next step',
    medianMs(() => planCase(large), 5),
  );
}

console.log('\nmoisture: 1 kg of PA6, 8760 spans');
for (const [what, run] of MOISTURE_WORK) print(what, medianMs(run, 15));

benchJobFile(print);

console.log();
await benchAnswers(8, [6, 1000]);

console.log(
  '\nagainst independent libraries, same network and evidence (full tables, so a corner of the guide)',
);
const folder = mkdtempSync(path.join(os.tmpdir(), 'beadwright-bench-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
const dlib = buildDlibPeer(folder);
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
  if (dlib.kind === 'ready') {
    const theirs = dlibPosterior(dlib.program, model, priors, evidence, 101);
    const mine = infer(model, priors, evidence);
    if (mine.kind !== 'ok') throw new Error(mine.kind);
    const gap = Math.max(...theirs.posterior.map((p, cause) => Math.abs(p - (mine.causes[cause] ?? NaN))));
    print('dlib, join tree, -O2, its tree built beforehand', theirs.milliseconds, ours);
    console.log(
      `  ${'largest difference of any posterior from dlib'.padEnd(48)} ${gap.toExponential(1).padStart(9)}`,
    );
  } else console.log(`  dlib, join tree: left out, ${dlib.reason}`);
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
  const ratio = ours === undefined ? '' : `  ${(milliseconds / ours).toPrecision(2)} times ours`;
  console.log(`  ${what.padEnd(48)} ${milliseconds.toFixed(2).padStart(9)} ms${ratio}`);
}
