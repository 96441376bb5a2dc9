import type { GraphEvidence, GraphModel } from './graph-model.ts';

const TOLERANCE = 1e-9;
const checkedModels = new WeakSet<GraphModel>();

/**
 * Throws on wrong use of inference: a number out of range, an index that names nothing, an observation given
 * twice. The message names the thing, the rule and what came. A model is looked through once and remembered.
 */
export function requireUsable(
  model: GraphModel,
  priors: readonly number[],
  evidence: readonly GraphEvidence[],
): void {
  requireModel(model);
  if (priors.length !== model.causes.length) {
    throw new RangeError(
      `priors must have one number for each of ${model.causes.length} causes, got ${priors.length}`,
    );
  }
  priors.forEach((prior, cause) => requireProbability(prior, `prior of cause "${model.causes[cause]?.id}"`));
  const seen = new Set<number>();
  for (const finding of evidence) {
    requireIndex(finding.observation, model.observations.length, 'evidence.observation');
    const observation = model.observations[finding.observation];
    if (seen.has(finding.observation))
      throw new RangeError(`evidence names observation "${observation?.id}" twice`);
    seen.add(finding.observation);
    const levels = observation?.leak.length ?? 0;
    if (finding.kind === 'level') {
      requireIndex(finding.level, levels, `level of observation "${observation?.id}"`);
      continue;
    }
    if (finding.likelihood.length !== levels) {
      throw new RangeError(
        `likelihood of observation "${observation?.id}" must have ${levels} numbers, got ${finding.likelihood.length}`,
      );
    }
    for (const value of finding.likelihood) {
      if (!(value >= 0 && value < Infinity)) {
        throw new RangeError(
          `likelihood of observation "${observation?.id}" must be finite and >= 0, got ${value}`,
        );
      }
    }
  }
}

/** Remembers a model built from a usable one by rules that keep it usable, so that its many links are not looked through again. */
export function takeAsUsable(model: GraphModel, builtFrom: GraphModel): void {
  requireModel(builtFrom);
  checkedModels.add(model);
}

function requireModel(model: GraphModel): void {
  if (checkedModels.has(model)) return;
  for (const mechanism of model.mechanisms) {
    requireProbability(mechanism.leak, `leak of mechanism "${mechanism.id}"`);
    requireDistinct(
      mechanism.links.map((link) => link.cause),
      `links of mechanism "${mechanism.id}"`,
    );
    for (const link of mechanism.links) {
      requireIndex(link.cause, model.causes.length, `cause of a link of mechanism "${mechanism.id}"`);
      requireProbability(link.probability, `link of mechanism "${mechanism.id}"`);
    }
  }
  for (const observation of model.observations) {
    requireDistribution(observation.leak, `leak of observation "${observation.id}"`);
    requireDistinct(
      observation.links.map((link) => `${link.from.kind} ${link.from.index}`),
      `links of observation "${observation.id}"`,
    );
    for (const link of observation.links) {
      const count = link.from.kind === 'cause' ? model.causes.length : model.mechanisms.length;
      requireIndex(link.from.index, count, `${link.from.kind} of a link of observation "${observation.id}"`);
      if (link.levels.length !== observation.leak.length) {
        throw new RangeError(
          `a link of observation "${observation.id}" must have ${observation.leak.length} levels, got ${link.levels.length}`,
        );
      }
      requireDistribution(link.levels, `link of observation "${observation.id}"`);
    }
    observation.accountLevels?.forEach((levels, cause) => {
      requireIndex(cause, model.causes.length, `cause that "${observation.id}" speaks of`);
      if (levels.length !== observation.leak.length)
        throw new RangeError(
          `what "${observation.id}" says of a cause must have ${observation.leak.length} levels, got ${levels.length}`,
        );
      requireDistribution(levels, `what "${observation.id}" says of a cause`);
    });
  }
  checkedModels.add(model);
}

/** Throws unless `value` is a whole number from 0 to `count` - 1. */
export function requireIndex(value: number, count: number, what: string): void {
  if (!(Number.isInteger(value) && value >= 0 && value < count)) {
    throw new RangeError(`${what} must be a whole number from 0 to ${count - 1}, got ${value}`);
  }
}

/** Throws unless `value` lies in [0, 1]; NaN fails. */
export function requireProbability(value: number, what: string): void {
  if (!(value >= 0 && value <= 1))
    throw new RangeError(`${what} must be a probability from 0 to 1, got ${value}`);
}

function requireDistribution(levels: readonly number[], what: string): void {
  if (levels.length < 2) throw new RangeError(`${what} must have at least 2 levels, got ${levels.length}`);
  for (const value of levels) requireProbability(value, what);
  const sum = levels.reduce((total, value) => total + value, 0);
  if (!(Math.abs(sum - 1) <= TOLERANCE)) throw new RangeError(`${what} must sum to 1, got ${sum}`);
}

function requireDistinct(keys: readonly (string | number)[], what: string): void {
  const twice = keys.find((key, index) => keys.indexOf(key) !== index);
  if (twice !== undefined) throw new RangeError(`${what} must name each parent once, got ${twice} twice`);
}
