import type { KnowledgeFault } from '../fault.ts';
import { hiddenCauses } from './hidden-causes.ts';
import { idleObservations } from './idle-observations.ts';
import { seenWithOnly } from './lone-cause.ts';
import { priorMass } from './prior-mass.ts';
import type { ThoroughInput } from './thorough-input.ts';
import { twinCauses } from './twin-causes.ts';
import { unproposedRemedies } from './unproposed-remedies.ts';

/**
 * What is wrong with a guide that reads well: causes that no check tells apart, observations that never change
 * anything, priors that add up to no plausible rate of complaints, causes that cannot come to the top, and remedies
 * that are never proposed. Pure and seeded: the same guide gives the same findings.
 *
 * @param input A guide without ordinary faults.
 * @param cases Simulated cases for the last of these.
 */
export function checkThoroughly(input: ThoroughInput, cases: number): KnowledgeFault[] {
  const { graph } = input.knowledge;
  const seen = graph.causes.map((_, cause) => seenWithOnly(graph, cause));
  const seenWithNone = seenWithOnly(graph, null);
  return [
    ...twinCauses(input, seen),
    ...idleObservations(input, seen, seenWithNone),
    ...priorMass(input),
    ...hiddenCauses(input, seen, seenWithNone),
    ...unproposedRemedies(input, cases),
  ];
}
