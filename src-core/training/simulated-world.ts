import type { GraphLink, GraphModel } from '../inference/index.ts';
import { drawIndex, type Random } from './seeded-random.ts';

/**
 * One drawn world: which causes are at work and, by the same noise, what every observation would show with any of them
 * removed. Links fire or stay silent once for the whole case, so a remedy changes only what its cause had brought.
 */
export interface SimulatedWorld {
  /** Causes at work at the start (indices). */
  readonly causes: readonly number[];
  /** Level of each observation while exactly these causes are at work. */
  levelsWith(causesAtWork: ReadonlySet<number>): readonly number[];
}

/** Draws the noise of a world in which exactly `causes` are at work. */
export function drawWorld(model: GraphModel, causes: readonly number[], random: Random): SimulatedWorld {
  const mechanismLeaks = model.mechanisms.map((mechanism) => random() < mechanism.leak);
  const drives = model.mechanisms.map((mechanism) =>
    mechanism.links.filter((link) => random() < link.probability).map((link) => link.cause),
  );
  const leaks = model.observations.map((observation) => drawIndex(observation.leak, random));
  const raised = model.observations.map((observation): [GraphLink['from'], number][] => {
    const { accountLevels } = observation;
    // What speaks of what accounts for the complaint: every cause drawn counts as accounting, since a case keeps only such.
    if (accountLevels) {
      return causes.map((index) => [
        { kind: 'cause', index },
        drawIndex(accountLevels[index] ?? [1], random),
      ]);
    }
    return observation.links.map((link) => [link.from, drawIndex(link.levels, random)]);
  });
  return {
    causes,
    levelsWith: (atWork) => {
      const going = drives.map(
        (drivers, index) => mechanismLeaks[index] === true || drivers.some((cause) => atWork.has(cause)),
      );
      return raised.map((links, index) => {
        const levels = links.map(([from, level]) =>
          (from.kind === 'cause' ? atWork.has(from.index) : going[from.index] === true) ? level : 0,
        );
        return Math.max(leaks[index] ?? 0, ...levels, 0);
      });
    },
  };
}

/**
 * Draws which causes are at work: each by its own prior, kept when there are one or two of them (more at once is
 * beyond what a practice case should hold) and one of them satisfies `isWanted`.
 */
export function drawCauses(
  priors: readonly number[],
  random: Random,
  isWanted: (cause: number) => boolean,
): number[] {
  const weights = priors.map((prior, cause) => (isWanted(cause) ? prior : 0));
  for (let attempt = 0; attempt < 2000; attempt++) {
    const drawn = priors.flatMap((prior, cause) => (random() < prior ? [cause] : []));
    if (drawn.length > 0 && drawn.length <= 2 && drawn.some(isWanted)) return drawn;
  }
  return [drawIndex(weights, random)];
}

/** Whether one true cause, taken away alone, changes any of the observations: without it that much of the trouble is gone. */
export function bringsOnPartOf(
  world: SimulatedWorld,
  cause: number,
  observations: readonly number[],
): boolean {
  const all = world.levelsWith(new Set(world.causes));
  const others = world.levelsWith(new Set(world.causes.filter((one) => one !== cause)));
  return observations.some((index) => all[index] !== others[index]);
}
