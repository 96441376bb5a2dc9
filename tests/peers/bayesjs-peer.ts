import { createRequire } from 'node:module';
import type { INetwork } from 'bayesjs';
import type { GraphEvidence, GraphModel } from '../../src-core/inference/network/graph-model.ts';
import { gateTable, type GateParent } from './gate-table.ts';

// A CommonJS bundle whose names Node's loader cannot see.
const { inferAll } = createRequire(import.meta.url)('bayesjs') as typeof import('bayesjs');

const ABSENT = '0';

/** The same network for bayesjs: every gate written out as a full table. */
export function bayesjsNetwork(model: GraphModel, priors: readonly number[]): INetwork {
  const network: INetwork = {};
  model.causes.forEach((cause, index) => {
    const prior = priors[index] ?? 0;
    network[cause.id] = {
      id: cause.id,
      states: ['0', '1'],
      parents: [],
      cpt: { '0': 1 - prior, '1': prior },
    };
  });
  const add = (id: string, leak: readonly number[], parents: readonly GateParent[]) => {
    network[id] = {
      id,
      states: leak.map((_, level) => String(level)),
      parents: parents.map((parent) => parent.id),
      cpt: gateTable(leak, parents).map((row, bits) => ({
        when: Object.fromEntries(parents.map((parent, k) => [parent.id, String((bits >> k) & 1)])),
        then: Object.fromEntries(row.map((probability, level) => [String(level), probability])),
      })),
    };
  };
  for (const mechanism of model.mechanisms) {
    add(
      mechanism.id,
      [1 - mechanism.leak, mechanism.leak],
      mechanism.links.map((link) => ({
        id: model.causes[link.cause]?.id ?? '',
        levels: [1 - link.probability, link.probability],
      })),
    );
  }
  for (const observation of model.observations) {
    add(
      observation.id,
      observation.leak,
      observation.links.map(({ from, levels }) => ({
        id: (from.kind === 'cause' ? model.causes : model.mechanisms)[from.index]?.id ?? '',
        levels,
      })),
    );
  }
  return network;
}

/** Posterior of every cause by bayesjs's junction tree; a fresh run each call. */
export function bayesjsPosterior(
  model: GraphModel,
  network: INetwork,
  evidence: readonly GraphEvidence[],
): number[] {
  const given = Object.fromEntries(
    evidence.flatMap((finding) =>
      finding.kind === 'level'
        ? [[model.observations[finding.observation]?.id ?? '', String(finding.level)]]
        : [],
    ),
  );
  const result = inferAll(network, given, { force: true, precision: 15 });
  return model.causes.map((cause) => 1 - (result[cause.id]?.[ABSENT] ?? 1));
}
