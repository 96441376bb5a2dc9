import { CONDITION, type ReliedOnCondition } from '../contract/relied-on-conditions.ts';
import type { Conditions } from '../knowledge/conditions.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { strengthProbability } from '../knowledge/scale.ts';
import { seededRandom, type Random } from './seeded-random.ts';
import { bringsOnPartOf, drawCauses, drawWorld, type SimulatedWorld } from './simulated-world.ts';

/** A simulated trouble: what is known at the start, what is really wrong, and how the world answers. */
export interface PracticeCase {
  readonly conditions: Conditions;
  /** True causes (indices), each of which brings on part of the complaint. */
  readonly causes: readonly number[];
  readonly complaints: readonly number[];
  /** Level of an observation while these causes are still there. */
  levelOf(observation: number, causesLeft: ReadonlySet<number>): number;
  /** Whether trying this remedy takes this cause away; the same answer however often it is tried. */
  removes(remedy: string, cause: number): boolean;
  /** The same causes and complaints with other luck in everything else. */
  redrawn?(luck: number): PracticeCase;
}

/** What a drawn case is to be about. */
export interface DrawWish {
  readonly family?: string | null;
  /** Whether a cause is among those to be practised. */
  readonly isWanted?: (cause: string) => boolean;
  /** How many causes are at work. */
  readonly causes?: 1 | 2 | null;
}

const MOST_COMPLAINTS = 3;
const MOST_DRAWS = 400;

/** Draws a practice case from the shipped network. The same seed and wish give the same case. */
export function drawPracticeCase(knowledge: Knowledge, seed: number, wish: DrawWish | null): PracticeCase {
  const family = wish?.family ?? null;
  const random = seededRandom(seed);
  const causeList = [...knowledge.causes.values()];
  const remediable = new Set(
    [...knowledge.remedies.values()].flatMap((remedy) => remedy.removes.map(({ cause }) => cause)),
  );
  const isWanted = (index: number) => {
    const cause = causeList[index];
    return (
      cause !== undefined &&
      remediable.has(cause.id) &&
      (family === null || cause.family === family) &&
      (wish?.isWanted?.(cause.id) ?? true)
    );
  };
  for (let attempt = 0; ; attempt++) {
    const conditions = drawConditions(knowledge, random);
    const { priors } = knowledge.priorsUnder(conditions);
    const causes = drawCauses(priors, random, isWanted).filter((index) =>
      remediable.has(causeList[index]?.id ?? ''),
    );
    const world = drawWorld(knowledge.graph, causes, random);
    const complaints = complaintsOf(knowledge, world);
    // Each true cause must matter: taken away alone, it changes some complaint.
    const isFair = complaints.length > 0 && causes.every((cause) => bringsOnPartOf(world, cause, complaints));
    if (!isFair) continue;
    // A wish for two causes that seldom come together is given up in the end.
    if (wish?.causes && causes.length !== wish.causes && attempt < MOST_DRAWS) continue;
    return practiceIn(knowledge, conditions, world, complaints.slice(0, MOST_COMPLAINTS), seed);
  }
}

function practiceIn(
  knowledge: Knowledge,
  conditions: Conditions,
  world: SimulatedWorld,
  complaints: readonly number[],
  seed: number,
): PracticeCase {
  const told = new Set(complaints);
  const own = (observation: number, left: ReadonlySet<number>) => world.levelsWith(left)[observation] ?? 0;
  const base = { conditions, causes: world.causes, complaints };
  return {
    ...base,
    levelOf: own,
    removes: removalDraws(knowledge, seed),
    redrawn: (luck) => {
      const other = drawWorld(knowledge.graph, world.causes, seededRandom(seed + luck * 7919));
      return {
        ...base,
        levelOf: (observation, left) =>
          told.has(observation) ? own(observation, left) : (other.levelsWith(left)[observation] ?? 0),
        removes: removalDraws(knowledge, seed + luck * 7919),
      };
    },
  };
}

/** Circumstances a report would name: the material always, the nozzle mostly, how the spool was kept half the time. */
function drawConditions(knowledge: Knowledge, random: Random): Conditions {
  const pick = (condition: ReliedOnCondition) => {
    const values = knowledge.conditions.get(condition)?.values ?? [];
    return values[Math.floor(random() * Math.min(values.length, 8))]?.id;
  };
  const conditions: Record<string, string | number> = {};
  const polymer = pick(CONDITION.polymer);
  if (polymer) conditions[CONDITION.polymer] = polymer;
  const isFilled = random() < 0.2;
  conditions[CONDITION.filler] = isFilled ? (pick(CONDITION.filler) ?? 'none') : 'none';
  if (random() < 0.7)
    conditions[CONDITION.nozzleMm] = [0.4, 0.4, 0.4, 0.6, 0.8][Math.floor(random() * 5)] ?? 0.4;
  const storage = pick(CONDITION.storage);
  if (random() < 0.5 && storage) conditions[CONDITION.storage] = storage;
  const path = pick(CONDITION.feedPath);
  if (random() < 0.7 && path) conditions[CONDITION.feedPath] = path;
  return conditions;
}

function complaintsOf(knowledge: Knowledge, world: SimulatedWorld): number[] {
  const levels = world.levelsWith(new Set(world.causes));
  const without = world.levelsWith(new Set());
  return [...knowledge.observations.values()].flatMap((observation, index) =>
    observation.complaint && !observation.danger && (levels[index] ?? 0) > 0 && (without[index] ?? 0) === 0
      ? [index]
      : [],
  );
}

/** One uniform draw for each remedy and cause, fixed by the seed. */
function removalDraws(knowledge: Knowledge, seed: number): PracticeCase['removes'] {
  const random = seededRandom(seed ^ 0x5bd1e995);
  const draws = new Map<string, boolean>();
  for (const remedy of knowledge.remedies.values()) {
    for (const { cause, chance } of remedy.removes) {
      draws.set(
        `${remedy.id} ${knowledge.causeIndex.get(cause) ?? -1}`,
        random() < strengthProbability(chance),
      );
    }
  }
  return (remedy, cause) => draws.get(`${remedy} ${cause}`) ?? false;
}
