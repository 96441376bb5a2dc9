import { spawnSync } from 'node:child_process';
import path from 'node:path';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import type { GeneralNetwork } from '../../src-core/inference/general/query-general.ts';
import { expandGates } from '../../src-core/inference/interchange/expand-gates.ts';

/** The peer's program, or why it cannot be had here (it needs g++ and dlib's headers: Debian's libdlib-dev). */
export type DlibPeer =
  { readonly kind: 'ready'; readonly program: string } | { readonly kind: 'absent'; readonly reason: string };

const SOURCE = path.join(import.meta.dirname, 'dlib', 'join-tree.cpp');
const HEADER = '#include <dlib/bayes_utils.h>\n';

/** Whether compiler and headers are there; a fraction of a second. */
export function dlibAbsence(): string | null {
  const probe = spawnSync('g++', ['-M', '-x', 'c++', '-'], { input: HEADER, encoding: 'utf8' });
  if (probe.error) return 'g++ is not installed';
  return probe.status === 0 ? null : 'dlib is not installed (no <dlib/bayes_utils.h>)';
}

/** Compiles the program into `folder`; takes some seconds. Throws when compiler and dlib are there but it fails. */
export function buildDlibPeer(folder: string): DlibPeer {
  const reason = dlibAbsence();
  if (reason !== null) return { kind: 'absent', reason };
  const program = path.join(folder, 'join-tree');
  const built = spawnSync('g++', ['-O2', '-std=c++17', '-w', '-o', program, SOURCE], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(`g++ failed on ${SOURCE}:\n${built.stderr}`);
  return { kind: 'ready', program };
}

export interface DlibAnswer {
  /** Posterior of every cause. */
  readonly posterior: number[];
  /** Median of one pass over the join tree, by the peer's own clock; building the tree not counted. */
  readonly milliseconds: number;
}

/**
 * Posterior of every cause by dlib's join tree. Observations without evidence are left out, as they would only cost it
 * time; gates are written out as full tables.
 */
export function dlibPosterior(
  program: string,
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
  runs = 1,
): DlibAnswer {
  const observed = evidence.map((finding) => finding.observation);
  const observations = model.observations.filter((_, index) => observed.includes(index));
  const network = expandGates({ ...model, observations }, priors);
  const findings = evidence.map((finding): [number, number] => {
    if (finding.kind !== 'level') throw new Error('the peer takes levels only');
    const id = model.observations[finding.observation]?.id;
    return [network.variables.findIndex((variable) => variable.id === id), finding.level];
  });
  const ran = spawnSync(program, [], {
    input: describeNetwork(connected(network), findings, runs),
    encoding: 'utf8',
  });
  if (ran.status !== 0) throw new Error(`the dlib peer ended with ${String(ran.status)}: ${ran.stderr}`);
  const [nanoseconds = '', ...rows] = ran.stdout.trim().split('\n');
  return {
    posterior: model.causes.map((_, cause) => Number(rows[cause]?.trim().split(' ')[1] ?? NaN)),
    milliseconds: Number(nanoseconds) / 1e6,
  };
}

/** dlib wants a connected graph: neighbouring unconnected parts get a common child that says nothing. */
function connected(network: GeneralNetwork): GeneralNetwork {
  const partOf = network.variables.map((_, index) => index);
  const find = (index: number): number => {
    const part = partOf[index] ?? index;
    return part === index ? index : find(part);
  };
  network.variables.forEach(({ parents }, index) => {
    for (const parent of parents) partOf[find(parent)] = find(index);
  });
  const parts = network.variables.flatMap((_, index) => (find(index) === index ? [index] : []));
  const joints = parts.slice(1).map((part, k) => {
    const pair = [parts[k] ?? 0, part];
    const rows = pair.reduce((product, index) => product * (network.variables[index]?.states ?? 1), 1);
    return { id: `joint-${k}`, states: 2, parents: pair, table: new Array<number>(2 * rows).fill(0.5) };
  });
  return { variables: [...network.variables, ...joints] };
}

function describeNetwork(
  { variables }: GeneralNetwork,
  findings: readonly (readonly [number, number])[],
  runs: number,
): string {
  return [
    variables.length,
    ...variables.map(({ states, parents, table }) =>
      [states, parents.length, ...parents, ...table].join(' '),
    ),
    findings.length,
    ...findings.map((finding) => finding.join(' ')),
    runs,
  ].join('\n');
}
