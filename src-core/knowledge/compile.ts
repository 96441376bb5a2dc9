import { timesOdds } from '../numerics/times-odds.ts';
import type { GraphLink, GraphModel, GraphObservation } from '../inference/index.ts';
import { accountChance, speaksOfAccount, throughMechanisms } from './account-levels.ts';
import { besideMechanisms } from './shown-chance.ts';
import { cappedLeak, raisedByCauses } from './direct-leak.ts';
import { knownToHold, type Conditions } from './conditions.ts';
import { formerIds } from './former-ids.ts';
import type { Knowledge, PriorShift } from './knowledge.ts';
import type { Cause, KnowledgeFile, LinkStrength, LinkTable, Observation } from './schema.ts';
import { strengthProbability, type Strength } from './scale.ts';
import type { SingleName } from './check-singles.ts';
import { NO_WORDS } from './words-schema.ts';

export const CAUSE_NOT_IN_GUIDE = 'cause-not-in-guide';

/** A pattern that nobody linked to a cause is told of it at most this often. Our own estimate. */
const ACCOUNT_LEAK_LIMIT = 0.05;
/** How often a pattern or comparison is told with nothing behind it at all. Our own estimate. */
const TOLD_BY_CHANCE = 0.005;

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
  const linkTables = byId(files.flatMap((file) => file.linkTables ?? []));
  const causes = byId(files.flatMap((file) => file.causes ?? []));
  const remedies = byId(files.flatMap((file) => file.remedies ?? []));
  const causeIndex = indexOf(causes);
  const mechanismIndex = indexOf(mechanisms);
  const observationIndex = indexOf(observations);
  const causeList = [...causes.values()];
  const basePriors = causeList.map((cause) => cause.prior.perHundredCases / 100);

  const graphObservations: {
    id: string;
    leak: readonly number[];
    links: GraphLink[];
    accountLevels?: readonly (readonly number[])[];
    reach?: readonly (readonly number[] | null)[];
  }[] = [...observations.values()].map((observation) => ({
    id: observation.id,
    leak: levelDistribution(observation, observation.leak.strength),
    links: [],
  }));
  const addLink = (to: string, from: GraphLink['from'], strength: LinkStrength) => {
    const observation = need(observations, to);
    const target = graphObservations[need(observationIndex, to)];
    target?.links.push({ from, levels: levelDistribution(observation, strength) });
  };
  const addComplaintLink = (observation: Observation, index: number, strength: Strength) => {
    const target = graphObservations[need(observationIndex, observation.id)];
    target?.links.push({
      from: { kind: 'cause', index },
      levels: anyLevelDistribution(observation, strength),
    });
  };
  causeList.forEach((cause, index) => {
    const shown = new Set(cause.shows.map((link) => link.to));
    for (const link of cause.shows) {
      if (!linkTables.has(link.to)) addLink(link.to, { kind: 'cause', index }, link.strength);
    }
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

  for (const table of linkTables.values()) {
    const observation = need(observations, table.id);
    const index = need(observationIndex, table.id);
    const node = graphObservations[index];
    if (!node) continue;
    // What nobody knows is the table's leak: its share is part of what was expected.
    const reach: (number[] | null)[] = causeList.map(() => null);
    // By what the table says: to ask it for each cause took half the time of compiling.
    for (const [cause, strength] of Object.entries(table.from))
      reach[need(causeIndex, cause)] = levelDistribution(observation, strength);
    const links = reach.flatMap((levels, causeAt): GraphLink[] => {
      const own = levels && besideMechanisms(levels, throughMechanisms(graph, index, causeAt));
      return own ? [{ from: { kind: 'cause', index: causeAt }, levels: own }] : [];
    });
    if (observation.complaint) node.reach = reach;
    node.links = [...links, ...node.links.filter(({ from }) => from.kind === 'mechanism')];
    if (table.leak !== undefined) node.leak = levelDistribution(observation, table.leak);
  }

  const facetTables = byId(files.flatMap((file) => file.facetTables ?? []));
  [...observations.values()].forEach((observation, index) => {
    const table = facetTables.get(observation.id);
    const node = graphObservations[index];
    if (!node) return;
    if (!speaksOfAccount(observation, table)) {
      if (!observation.complaint && linkTables.get(observation.id)?.leak === undefined)
        node.leak = cappedLeak(node.leak, raisedByCauses(graph, index));
      return;
    }
    const silent = levelsOf(observation).map((_, level) => (level === 0 ? 1 : 0));
    const leak = Math.min(1 - (node.leak[0] ?? 1), ACCOUNT_LEAK_LIMIT);
    laterOn(node, 'accountLevels', () => {
      const linkOf = linksByCause(node);
      const byCause = causeList.map((cause, causeAt) => {
        const link = linkOf.get(causeAt);
        if (link) return link.levels;
        const { probability } = accountChance(cause, table, throughMechanisms(graph, index, causeAt), leak);
        return silent.map((_, level) => (level === 0 ? 1 - probability : probability / (silent.length - 1)));
      });
      // What nobody knows shows it as often as causes do on average.
      const unknownAt = causeIndex.get(CAUSE_NOT_IN_GUIDE);
      if (unknownAt === undefined) return byCause;
      const weight = basePriors.reduce((sum, prior, at) => sum + (at === unknownAt ? 0 : prior), 0);
      const mean = silent.map((_, level) =>
        byCause.reduce(
          (sum, levels, at) =>
            sum + (at === unknownAt ? 0 : ((basePriors[at] ?? 0) * (levels[level] ?? 0)) / weight),
          0,
        ),
      );
      return byCause.map((levels, at) => (at === unknownAt ? mean : levels));
    });
    if (table) {
      // What the table speaks of always has something that accounts for it; the rest is chance.
      node.leak = silent.map((_, level) =>
        level === 0 ? 1 - TOLD_BY_CHANCE : TOLD_BY_CHANCE / (silent.length - 1),
      );
    }
  });

  const rows = tableLinks(graph, linkTables, observations);
  const levelNames = new Map(
    [...observations.values()].map((observation) => [observation.id, levelsOf(observation)]),
  );
  return Object.freeze({
    version,
    conditions,
    materials,
    cautions,
    practices,
    mechanisms,
    observations,
    causes: byId(
      causeList.map((cause, at) => ({
        ...cause,
        shows: [...cause.shows.filter(({ to }) => !linkTables.has(to)), ...(rows[at] ?? [])],
      })),
    ),
    remedies,
    facetTables,
    former: formerIds(files),
    water: byId(files.flatMap((file) => file.water ?? [])),
    service: byId(files.flatMap((file) => file.service ?? [])),
    mixtures: byId(files.flatMap((file) => file.mixtures ?? [])),
    desiccants: byId(files.flatMap((file) => file.desiccants ?? [])),
    barriers: byId(files.flatMap((file) => file.barriers ?? [])),
    spoolBodies: byId(files.flatMap((file) => file.spoolBodies ?? [])),
    places: byId(files.flatMap((file) => file.places ?? [])),
    trainingTopics: byId(files.flatMap((file) => file.trainingTopics ?? [])),
    scenarios: byId(files.flatMap((file) => file.scenarios ?? [])),
    lessons: byId(files.flatMap((file) => file.lessons ?? [])),
    maintenanceTasks: byId(files.flatMap((file) => file.maintenanceTasks ?? [])),
    nozzleWear: byId(files.flatMap((file) => file.nozzleWear ?? [])),
    get makeSafe() {
      return only(files, 'makeSafe');
    },
    get melting() {
      return only(files, 'melting');
    },
    get serviceHeat() {
      return only(files, 'serviceHeat');
    },
    get jobLimits() {
      return only(files, 'jobLimits');
    },
    get machineStates() {
      return only(files, 'machineStates');
    },
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
          shifts.push({
            cause: cause.id,
            timesOdds: rule.timesOdds,
            because: rule.because,
            source: rule.source,
          });
        }
        return prior;
      });
      return { priors, shifts };
    },
  });
}

/**
 * Gives `target` a value that is worked out when it is first asked for. What every cause says of every pattern is half the work of
 * compiling, and whoever only shows screens asks for none of it.
 */
function laterOn<T extends object, K extends keyof T>(target: T, key: K, make: () => T[K]): void {
  Object.defineProperty(target, key, {
    enumerable: true,
    configurable: true,
    get: () => {
      const value = make();
      Object.defineProperty(target, key, { enumerable: true, value });
      return value;
    },
  });
}

/** What stands in one file only. Read when asked for, so that a small guide needs no more than what is asked of it. */
function only<K extends SingleName>(files: readonly KnowledgeFile[], name: K): NonNullable<KnowledgeFile[K]> {
  for (const file of files) {
    const found = file[name];
    if (found !== undefined) return found;
  }
  throw new Error(`no file of the guide has "${name}"`);
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
    if (levels.length !== 2)
      throw new Error(`${observation.id} has ${levels.length} levels; name the chance of each`);
    return [1 - probability, probability];
  }
  const given = levels
    .slice(1)
    .map((level) => (level in strength ? strengthProbability(strength[level] ?? 0.5) : 0));
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

/** The first link of each cause (by index) with an observation. */
function linksByCause({ links }: Pick<GraphObservation, 'links'>): ReadonlyMap<number, GraphLink> {
  const byCause = new Map<number, GraphLink>();
  for (const link of links)
    if (link.from.kind === 'cause' && !byCause.has(link.from.index)) byCause.set(link.from.index, link);
  return byCause;
}

/**
 * What the tables give each cause (by index), as links of its own, so that whoever reads the cause finds it there: what it shows
 * beside its mechanisms.
 */
function tableLinks(
  graph: GraphModel,
  tables: ReadonlyMap<string, LinkTable>,
  observations: ReadonlyMap<string, Observation>,
): readonly Cause['shows'][] {
  const rows = graph.causes.map((): Cause['shows'][number][] => []);
  for (const node of graph.observations) {
    const table = tables.get(node.id);
    if (!table) continue;
    const observation = need(observations, node.id);
    for (const [at, { levels }] of linksByCause(node))
      rows[at]?.push({ to: node.id, strength: strengthOf(observation, levels), source: table.source });
  }
  return rows;
}

/** The strength that has this distribution: of grades the chance of at least each. */
function strengthOf(observation: Observation, levels: readonly number[]): LinkStrength {
  const [, ...names] = levelsOf(observation);
  const atLeast = (level: number) => levels.slice(level).reduce((sum, p) => sum + p, 0);
  if (names.length < 2) return atLeast(1);
  return Object.fromEntries(names.map((name, k) => [name, atLeast(k + 1)]));
}

/** Prior probability after its odds are multiplied. */
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
