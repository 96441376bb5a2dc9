import type { GraphLink, GraphModel, GraphObservation } from '../inference/index.ts';
import { knownToHold, type Conditions } from './conditions.ts';
import type { Knowledge, PriorShift } from './knowledge.ts';
import type { KnowledgeFile, LinkStrength, Observation } from './schema.ts';
import { strengthProbability, type Strength } from './scale.ts';
import { NO_WORDS } from './words-schema.ts';

export const CAUSE_NOT_IN_GUIDE = 'cause-not-in-guide';

/**
 * Compiles checked files into the immutable network.
 *
 * Requires: the files passed `checkKnowledge` without faults; a dangling id throws here.
 */
export function compileKnowledge(files: readonly KnowledgeFile[], version: string): Knowledge {
  const conditions = byId(files.flatMap((file) => file.conditions ?? []));
  const materials = byId(files.flatMap((file) => file.materials ?? []));
  const cautions = byId(files.flatMap((file) => file.cautions ?? []));
  const practices = byId(files.flatMap((file) => file.practices ?? []));
  const mechanisms = byId(files.flatMap((file) => file.mechanisms ?? []));
  const observations = byId(files.flatMap((file) => file.observations ?? []));
  const causes = byId(files.flatMap((file) => file.causes ?? []));
  const remedies = byId(files.flatMap((file) => file.remedies ?? []));
  const causeIndex = indexOf(causes);
  const mechanismIndex = indexOf(mechanisms);
  const observationIndex = indexOf(observations);
  const causeList = [...causes.values()];
  const basePriors = causeList.map((cause) => cause.prior.perHundredCases / 100);

  const graphObservations: { id: string; leak: readonly number[]; links: GraphLink[] }[] = [...observations.values()].map(
    (observation) => ({
      id: observation.id,
      leak: levelDistribution(observation, observation.leak.strength),
      links: [],
    }),
  );
  const addLink = (to: string, from: GraphLink['from'], strength: LinkStrength) => {
    const observation = need(observations, to);
    const target = graphObservations[need(observationIndex, to)];
    target?.links.push({ from, levels: levelDistribution(observation, strength) });
  };
  const addComplaintLink = (observation: Observation, index: number, strength: Strength) => {
    const target = graphObservations[need(observationIndex, observation.id)];
    target?.links.push({ from: { kind: 'cause', index }, levels: anyLevelDistribution(observation, strength) });
  };
  causeList.forEach((cause, index) => {
    const shown = new Set(cause.shows.map((link) => link.to));
    for (const link of cause.shows) addLink(link.to, { kind: 'cause', index }, link.strength);
    if (!cause.showsAnyComplaint) return;
    for (const observation of observations.values()) {
      if (!observation.complaint || shown.has(observation.id)) continue;
      addComplaintLink(observation, index, cause.showsAnyComplaint.strength);
    }
  });
  [...mechanisms.values()].forEach((mechanism, index) => {
    for (const link of mechanism.shows) addLink(link.to, { kind: 'mechanism', index }, link.strength);
  });

  const graph: GraphModel = {
    causes: causeList.map((cause, index) => ({ id: cause.id, prior: basePriors[index] ?? 0 })),
    mechanisms: [...mechanisms.values()].map((mechanism) => ({
      id: mechanism.id,
      leak: strengthProbability(mechanism.leak.strength),
      links: causeList.flatMap((cause, index) =>
        cause.drives
          .filter((link) => link.to === mechanism.id)
          .map((link) => ({ cause: index, probability: plainProbability(link.strength) })),
      ),
    })),
    observations: graphObservations satisfies readonly GraphObservation[],
  };

  const levelNames = new Map([...observations.values()].map((observation) => [observation.id, levelsOf(observation)]));
  return Object.freeze({
    version,
    conditions,
    materials,
    cautions,
    practices,
    mechanisms,
    observations,
    causes,
    remedies,
    water: byId(files.flatMap((file) => file.water ?? [])),
    service: byId(files.flatMap((file) => file.service ?? [])),
    mixtures: byId(files.flatMap((file) => file.mixtures ?? [])),
    desiccants: byId(files.flatMap((file) => file.desiccants ?? [])),
    barriers: byId(files.flatMap((file) => file.barriers ?? [])),
    spoolBodies: byId(files.flatMap((file) => file.spoolBodies ?? [])),
    places: byId(files.flatMap((file) => file.places ?? [])),
    words: files.find((file) => file.words)?.words ?? NO_WORDS,
    graph,
    causeIndex,
    mechanismIndex,
    observationIndex,
    levelsOf: (observationId: string) => need(levelNames, observationId),
    priorsUnder: (known: Conditions) => {
      const shifts: PriorShift[] = [];
      const priors = causeList.map((cause, index) => {
        let prior = basePriors[index] ?? 0;
        for (const rule of cause.movedBy) {
          if (!knownToHold(rule.when, known)) continue;
          if (rule.unlessKnown !== undefined && known[rule.unlessKnown] !== undefined) continue;
          prior = timesOdds(prior, rule.timesOdds);
          shifts.push({ cause: cause.id, timesOdds: rule.timesOdds, because: rule.because, source: rule.source });
        }
        return prior;
      });
      return { priors, shifts };
    },
  });
}

/** Level names, least first: grades, bands, or absent and present. */
export function levelsOf(observation: Observation): readonly string[] {
  if (observation.grades) return observation.grades.map((grade) => grade.id);
  if (observation.measure) return observation.measure.bands.map((band) => band.id);
  return ['absent', 'present'];
}

/**
 * Distribution over an observation's levels from a strength. A plain strength is the chance of level 1 in a
 * two-valued observation; a record gives, grade by grade, the chance of at least that grade, or for a
 * measurement (whose bands are not nested) the chance of that band.
 */
export function levelDistribution(observation: Observation, strength: LinkStrength): number[] {
  const levels = levelsOf(observation);
  if (typeof strength !== 'object') {
    const probability = strengthProbability(strength);
    if (levels.length !== 2) throw new Error(`${observation.id} has ${levels.length} levels; name the chance of each`);
    return [1 - probability, probability];
  }
  const given = levels.slice(1).map((level) => (level in strength ? strengthProbability(strength[level] ?? 0.5) : 0));
  if (observation.measure) return [1 - given.reduce((sum, p) => sum + p, 0), ...given];
  // "At least" chances fall from grade to grade: a higher grade without its own word gets none.
  return levels.map((_, level) => (level === 0 ? 1 : (given[level - 1] ?? 0)) - (given[level] ?? 0));
}

/** Shows at some level with the given strength, each level above the first alike: nothing is known of its gravity. */
function anyLevelDistribution(observation: Observation, strength: Strength): number[] {
  const probability = strengthProbability(strength);
  const others = levelsOf(observation).length - 1;
  return [1 - probability, ...Array.from({ length: others }, () => probability / others)];
}

/** Prior probability after its odds are multiplied. */
function timesOdds(probability: number, factor: number): number {
  const odds = (probability / (1 - probability)) * factor;
  return odds / (1 + odds);
}

function plainProbability(strength: LinkStrength): number {
  if (typeof strength === 'object') throw new Error('a mechanism is driven with a plain strength');
  return strengthProbability(strength);
}

function byId<T extends { readonly id: string }>(entries: readonly T[]): ReadonlyMap<string, T> {
  return new Map(entries.map((entry) => [entry.id, entry]));
}

function indexOf(map: ReadonlyMap<string, unknown>): ReadonlyMap<string, number> {
  return new Map([...map.keys()].map((id, index) => [id, index]));
}

function need<T>(map: ReadonlyMap<string, T>, id: string): T {
  const found = map.get(id);
  if (found === undefined) throw new Error(`unknown id "${id}" in checked knowledge`);
  return found;
}
