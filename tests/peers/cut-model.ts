import type { GraphModel } from '../../src-core/inference/network/graph-model.ts';

/**
 * A corner of a network that general-purpose libraries can hold: the given causes, the mechanisms they drive, and the
 * observations that only these show, with at most `mostParents` parents each; all gates keep their parameters.
 */
export function cutModel(model: GraphModel, causes: readonly number[], mostParents: number): GraphModel {
  const causeAt = new Map(causes.map((cause, index) => [cause, index]));
  const keptMechanisms = model.mechanisms.flatMap((mechanism, index) => {
    const links = mechanism.links.flatMap((link) => {
      const cause = causeAt.get(link.cause);
      return cause === undefined ? [] : [{ cause, probability: link.probability }];
    });
    return links.length > 0 ? [{ index, mechanism: { id: mechanism.id, leak: mechanism.leak, links } }] : [];
  });
  const mechanismAt = new Map(keptMechanisms.map(({ index }, at) => [index, at]));
  return {
    causes: causes.map((cause) => model.causes[cause] ?? { id: '', prior: 0 }),
    mechanisms: keptMechanisms.map(({ mechanism }) => mechanism),
    observations: model.observations.flatMap((observation) => {
      const links = observation.links.flatMap((link) => {
        const index = (link.from.kind === 'cause' ? causeAt : mechanismAt).get(link.from.index);
        return index === undefined ? [] : [{ from: { kind: link.from.kind, index }, levels: link.levels }];
      });
      return links.length > 0 && links.length <= mostParents
        ? [{ id: observation.id, leak: observation.leak, links }]
        : [];
    }),
  };
}
