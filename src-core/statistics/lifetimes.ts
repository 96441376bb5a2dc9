import { bisect } from './bisect.ts';
import { gammaAtMost } from './gamma-distribution.ts';
import { logGamma } from './log-gamma.ts';

/** Hours at which units failed, and hours of units that were still good when they were last looked at; all above 0. */
export interface Lifetimes {
  readonly failed: readonly number[];
  readonly stillGood: readonly number[];
}

/** The likeliest exponential distribution: failures as likely at any age. */
export function fitExponential({ failed, stillGood }: Lifetimes) {
  const hours = [...failed, ...stillGood].reduce((sum, one) => sum + one, 0);
  const rate = failed.length / hours;
  const logLikelihood = failed.length * Math.log(rate) - failed.length;
  return { hours, meanHours: 1 / rate, ratePerHour: rate, logLikelihood, aic: 2 - 2 * logLikelihood };
}

/**
 * The likeliest Weibull distribution (NIST/SEMATECH e-Handbook 8.4.1.3): `shape` above 1 wears out, below 1 fails early;
 * `scaleHours` is the age that 37 % outlive.
 */
export function fitWeibull({ failed, stillGood }: Lifetimes) {
  const all = [...failed, ...stillGood];
  const meanLog = failed.reduce((sum, one) => sum + Math.log(one), 0) / failed.length;
  /** Rises with the shape; 0 at the likeliest. */
  const slope = (shape: number) => {
    const powers = all.map((one) => one ** shape);
    const weighted = powers.reduce((sum, power, i) => sum + power * Math.log(all[i] ?? 1), 0);
    return weighted / powers.reduce((sum, one) => sum + one, 0) - 1 / shape - meanLog;
  };
  const shape = bisect((one) => slope(one) >= 0, 0.02, 50);
  const scaleHours = (all.reduce((sum, one) => sum + one ** shape, 0) / failed.length) ** (1 / shape);
  const logLikelihood =
    failed.reduce(
      (sum, one) => sum + Math.log(shape / scaleHours) + (shape - 1) * Math.log(one / scaleHours),
      0,
    ) - all.reduce((sum, one) => sum + (one / scaleHours) ** shape, 0);
  const moment = (order: number) => Math.exp(logGamma(1 + order / shape));
  return {
    scaleHours,
    shape,
    logLikelihood,
    aic: 4 - 2 * logLikelihood,
    meanHours: scaleHours * moment(1),
    sdHours: scaleHours * Math.sqrt(moment(2) - moment(1) ** 2),
  };
}

/** The likeliest lognormal distribution, by the steps of expectation and maximisation for what was still good. */
export function fitLognormal({ failed, stillGood }: Lifetimes) {
  const logs = failed.map(Math.log);
  const bounds = stillGood.map(Math.log);
  const count = logs.length + bounds.length;
  let mean = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  let deviation = 1;
  for (let step = 0; step < 2000; step++) {
    let first = logs.reduce((sum, one) => sum + one, 0);
    let second = logs.reduce((sum, one) => sum + one * one, 0);
    for (const bound of bounds) {
      const z = (bound - mean) / deviation;
      const hazard = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / normalAbove(z);
      const expected = mean + deviation * hazard;
      first += expected;
      second += mean * mean + deviation * deviation + deviation * hazard * (bound + mean);
    }
    mean = first / count;
    deviation = Math.sqrt(second / count - mean * mean);
  }
  const logLikelihood =
    logs.reduce(
      (sum, one) =>
        sum - one - Math.log(deviation * Math.sqrt(2 * Math.PI)) - ((one - mean) / deviation) ** 2 / 2,
      0,
    ) + bounds.reduce((sum, one) => sum + Math.log(normalAbove((one - mean) / deviation)), 0);
  return { meanLog: mean, sdLog: deviation, logLikelihood, aic: 4 - 2 * logLikelihood };
}

/** Chance that a standard normal variable lies above z. */
function normalAbove(z: number): number {
  const within = gammaAtMost({ shape: 0.5, rate: 1 }, (z * z) / 2);
  return z >= 0 ? (1 - within) / 2 : (1 + within) / 2;
}
