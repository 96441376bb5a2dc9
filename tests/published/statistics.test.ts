import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import {
  betaAtMost,
  betaMoments,
  betaQuantile,
  logBeta,
} from '../../src-core/statistics/beta-distribution.ts';
import {
  countLimits,
  cumulativeSums,
  goodBetweenLimits,
  rateLimits,
  spreadShareLimits,
} from '../../src-core/statistics/control-charts.ts';
import { updatedShares } from '../../src-core/statistics/dirichlet.ts';
import {
  adjustedChances,
  discoveries,
  holmDiscoveries,
  twoStageDiscoveries,
} from '../../src-core/statistics/false-discovery.ts';
import { gammaAtMost, gammaQuantile } from '../../src-core/statistics/gamma-distribution.ts';
import { chanceOfNone, fitRateSpread, updatedRate } from '../../src-core/statistics/gamma-poisson.ts';
import { garwoodLimits } from '../../src-core/statistics/garwood-limits.ts';
import { fitExponential, fitLognormal, fitWeibull } from '../../src-core/statistics/lifetimes.ts';
import { logChoose } from '../../src-core/statistics/log-factorial.ts';
import { fallingShares } from '../../src-core/statistics/pareto.ts';
import { poissonAtLeast, poissonAtMost } from '../../src-core/statistics/poisson.ts';
import { chanceOfNoLikelier, compareRates } from '../../src-core/statistics/rate-comparison.ts';
import { brierScore, classScores, logScore } from '../../src-core/statistics/scores.ts';
import { hoursToConfirm, meanTimeBetween, rateBelief } from '../../src-core/statistics/time-to-failure.ts';
import { pumpsByQuadrature } from './pumps-by-quadrature.ts';
import { referenceValue } from './reference-record.ts';

const record = <T>(id: string) => referenceValue<T>('statistics', id);
const near = (seen: readonly number[], wanted: readonly number[], digits: number) => {
  expect(seen.length).toBe(wanted.length);
  seen.forEach((one, i) => expect(one).toBeCloseTo(wanted[i] ?? NaN, digits));
};

describe('exact Poisson limits against Garwood (1936), statistics.yaml garwood-table', () => {
  const table = record<{ n: number; conf: number; low: number; high: number }[]>('garwood-table');
  it.each(table)('n = $n at $conf gives [$low, $high]', ({ n, conf, low, high }) => {
    const limits = garwoodLimits(n, conf);
    expect(limits.low).toBeCloseTo(low, 5);
    expect(limits.high).toBeCloseTo(high, 5);
  });

  it('25 events as a support note prints them, statistics.yaml garwood-25', () => {
    for (const [percent, [low = NaN, high = NaN]] of Object.entries(
      record<Record<string, number[]>>('garwood-25'),
    )) {
      const limits = garwoodLimits(25, Number(percent) / 100);
      expect(limits.low).toBeCloseTo(low, 1);
      expect(limits.high).toBeCloseTo(high, 1);
    }
  });

  it('none and ten, two-sided, statistics.yaml garwood-0-10', () => {
    const { n0_high, n10 } = record<{ n0_high: number; n10: number[] }>('garwood-0-10');
    expect(garwoodLimits(0).high).toBeCloseTo(n0_high, 3);
    near([garwoodLimits(10).low, garwoodLimits(10).high], n10, 2);
  });
});

describe('Poisson tails, statistics.yaml c-chart-tail (NIST c-chart, mean 16)', () => {
  const tails = record<{ above: number; below: number }>('c-chart-tail');
  it('above 28', () => expect(poissonAtLeast(29, 16)).toBeCloseTo(tails.above, 12));
  it('below 4', () => expect(poissonAtMost(3, 16)).toBeCloseTo(tails.below, 12));
});

describe('control charts', () => {
  it('wafers, statistics.yaml nist-c-chart: one is out, one lies on the limit and is not', () => {
    const { counts, centre, ucl, lcl } = record<{
      counts: number[];
      centre: number;
      ucl: number;
      lcl: number;
    }>('nist-c-chart');
    const limits = countLimits(counts);
    expect(limits).toEqual({ centre, low: lcl, high: ucl });
    expect(counts.flatMap((count, i) => (count > limits.high ? [i + 1] : []))).toEqual([24]);
  });

  it('rates over unlike exposures, statistics.yaml u-chart', () => {
    const { e, d, u_bar, u, ucl, lcl } = record<
      Record<'e' | 'd' | 'u' | 'ucl' | 'lcl', number[]> & { u_bar: number }
    >('u-chart');
    const limits = rateLimits(d.map((count, i) => ({ count, exposure: e[i] ?? NaN })));
    near(
      limits.map((one) => one.centre),
      e.map(() => u_bar),
      13,
    );
    near(
      limits.map((one) => one.high),
      ucl,
      12,
    );
    near(
      limits.map((one) => one.low),
      lcl,
      12,
    );
    near(
      d.map((count, i) => count / (e[i] ?? NaN)),
      u,
      13,
    );
  });

  it('good prints between failures, statistics.yaml g-chart-formula and g-chart-worked', () => {
    const { g, gbar, ucl, lcl, p_hat } = record<{
      g: number[];
      gbar: number;
      ucl: number;
      lcl: number;
      p_hat: number;
    }>('g-chart-worked');
    const limits = goodBetweenLimits(g);
    near([limits.centre, limits.high, limits.low, 1 / (1 + limits.centre)], [gbar, ucl, lcl, p_hat], 12);
  });

  it('shares with days that differ, statistics.yaml laney-p-prime', () => {
    const { d, n, p_bar, z, sigma_z, limits_3_sigma_n1000 } = record<
      Record<'d' | 'n' | 'z' | 'limits_3_sigma_n1000', number[]> & { p_bar: number; sigma_z: number }
    >('laney-p-prime');
    const chart = spreadShareLimits(d.map((failed, i) => ({ failed, all: n[i] ?? NaN })));
    near([chart.share, chart.spread], [p_bar, sigma_z], 12);
    near(chart.distances, z, 12);
    const { low, high } = chart.limitsFor(1000);
    near([low, high], limits_3_sigma_n1000, 13);
  });

  it('cumulative sums, statistics.yaml cusum-tabular (Montgomery and Runger, 40 entries, no signal)', () => {
    const { x, upper, lower } = record<Record<'x' | 'upper' | 'lower', number[]>>('cusum-tabular');
    const sums = cumulativeSums(x, 99, 1);
    near(
      sums.map((one) => one.above),
      upper,
      9,
    );
    near(
      sums.map((one) => one.below),
      lower,
      9,
    );
    expect(sums.some(({ above, below }) => above > 10 || below > 10)).toBe(false);
  });

  it('cumulative sums, statistics.yaml nist-cusum: first signal', () => {
    const { data, first_signal_group } = record<{ data: number[]; first_signal_group: number }>('nist-cusum');
    const sums = cumulativeSums(data, 325, 0.3175);
    expect(sums.findIndex(({ above, below }) => above > 4.1959 || below > 4.1959) + 1).toBe(
      first_signal_group,
    );
  });
});

describe('times to failure', () => {
  const units = {
    failed: [54, 187, 216, 240, 244, 335, 361, 373, 375, 386],
    stillGood: new Array<number>(10).fill(500),
  };

  it('Weibull and lognormal, statistics.yaml nist-weibull', () => {
    const wanted = record<Record<string, number>>('nist-weibull');
    const fit = fitWeibull(units);
    expect(fit.scaleHours).toBeCloseTo(wanted['eta'] ?? NaN, 2);
    expect(fit.shape).toBeCloseTo(wanted['beta'] ?? NaN, 4);
    expect(fit.logLikelihood).toBeCloseTo(wanted['log_likelihood'] ?? NaN, 3);
    expect(fit.aic).toBeCloseTo(wanted['aic'] ?? NaN, 2);
    expect(fit.meanHours).toBeCloseTo(wanted['mean_h'] ?? NaN, 2);
    expect(fit.sdHours).toBeCloseTo(wanted['sd_h'] ?? NaN, 2);
    expect(fitLognormal(units).aic).toBeCloseTo(wanted['aic_lognormal'] ?? NaN, 2);
  });

  it('exponential, statistics.yaml exponential-same-data', () => {
    const wanted = record<Record<string, number>>('exponential-same-data');
    const fit = fitExponential(units);
    near(
      [fit.hours, fit.meanHours, fit.logLikelihood, fit.aic],
      ['total_hours', 'mtbf', 'log_likelihood', 'aic'].map((name) => wanted[name] ?? NaN),
      9,
    );
    expect(fit.ratePerHour).toBeCloseTo(wanted['rate_per_h'] ?? NaN, 15);
  });

  it.each(record<{ r: number; low: number; high: number }[]>('mtbf-factors'))(
    'factors of a mean time between failures, statistics.yaml mtbf-formulas and mtbf-factors, r = $r',
    ({ r, low, high }) => {
      const limits = meanTimeBetween({ failures: r, hours: r }, 0.9);
      near([limits.low, limits.high], [low, high], 6);
    },
  );

  it('none failed: a one-sided lower limit, statistics.yaml mtbf-formulas', () => {
    const { mean, low, high } = meanTimeBetween({ failures: 0, hours: 1000 }, 0.9);
    expect([mean, high]).toEqual([null, Infinity]);
    expect(low).toBeCloseTo(1000 / -Math.log(0.1), 9);
  });

  it('what a shop believes, statistics.yaml gamma-prior-5095', () => {
    const { a, b } = record<{ a: number; b: number }>('gamma-prior-5095');
    const belief = rateBelief(600, 250);
    expect(belief.shape).toBeCloseTo(a, 5);
    expect(belief.rate).toBeCloseTo(b, 2);
  });

  it('hours that confirm, statistics.yaml gamma-prior-test and gamma-prior-5095-test', () => {
    const wanted = record<{ bayesian: number; bayesian_rounded_prior: number; classical: number }>(
      'gamma-prior-5095-test',
    );
    const { a_text, b_text } = record<{ a_text: number; b_text: number }>('gamma-prior-5095');
    expect(hoursToConfirm(500, 0.8, 2, rateBelief(600, 250))).toBeCloseTo(wanted.bayesian, 2);
    expect(hoursToConfirm(500, 0.8, 2, { shape: a_text, rate: b_text })).toBeCloseTo(
      wanted.bayesian_rounded_prior,
      2,
    );
    expect(hoursToConfirm(500, 0.8, 2)).toBeCloseTo(wanted.classical, 2);
  });
});

describe('false discoveries', () => {
  const { p, rejected, largest_rejected_p, ...list } = record<{
    p: number[];
    rejected: number;
    largest_rejected_p: number;
    'below_0.05': number;
  }>('bh-1995');

  it('Benjamini and Hochberg (1995), section 4, statistics.yaml bh-1995', () => {
    expect(discoveries(p, 0.05)).toBe(rejected);
    expect(p[rejected - 1]).toBe(largest_rejected_p);
    expect(p.filter((one) => one < 0.05).length).toBe(list['below_0.05']);
  });

  it('adjusted, Bonferroni and Holm, statistics.yaml bh-1995-adjusted; in any order', () => {
    const wanted = record<{ adjusted: number[]; bonferroni_rejected: number; holm_rejected: number }>(
      'bh-1995-adjusted',
    );
    near(adjustedChances(p), wanted.adjusted, 8);
    near(adjustedChances(p.toReversed()).toReversed(), wanted.adjusted, 8);
    expect(p.filter((one) => one <= 0.05 / p.length).length).toBe(wanted.bonferroni_rejected);
    expect(holmDiscoveries(p, 0.05)).toBe(wanted.holm_rejected);
  });

  it('two-stage and iterated, statistics.yaml bh-two-stage', () => {
    const wanted = record<{ single: number; two_stage: number; iterated: number }>('bh-two-stage');
    expect([discoveries(p, 0.05), twoStageDiscoveries(p, 0.05), twoStageDiscoveries(p, 0.05, true)]).toEqual([
      wanted.single,
      wanted.two_stage,
      wanted.iterated,
    ]);
  });
});

describe('ten pumps (Gaver and O’Muircheartaigh 1987), statistics.yaml pumps-data', () => {
  const { x, t } = record<{ x: number[]; t: number[] }>('pumps-data');
  const units = x.map((count, i) => ({ count, exposure: t[i] ?? NaN }));

  it('empirical Bayes, statistics.yaml pumps-empirical-bayes', () => {
    const wanted = record<{
      alpha: number;
      beta: number;
      log_likelihood: number;
      theta: number[];
      raw_rate: number[];
    }>('pumps-empirical-bayes');
    const spread = fitRateSpread(units);
    if (!spread) throw new Error('there are cases');
    near(
      [spread.shape, spread.rate, spread.logLikelihood],
      [wanted.alpha, wanted.beta, wanted.log_likelihood],
      6,
    );
    const shrunk = units.map((unit) => updatedRate(spread, unit));
    near(
      shrunk.map(({ shape, rate }) => shape / rate),
      wanted.theta,
      6,
    );
    near(
      units.map(({ count, exposure }) => count / exposure),
      wanted.raw_rate,
      6,
    );
  });

  it('fully Bayesian, statistics.yaml pumps-model, pumps-exact and, within its simulation error, pumps-bugs', () => {
    type Moments = Record<'theta_mean' | 'theta_sd', number[]> &
      Record<'alpha' | 'beta' | 'alpha_sd' | 'beta_sd', number>;
    const found = pumpsByQuadrature(units);
    const exact = record<Moments>('pumps-exact');
    near(found.means, exact.theta_mean, 5);
    near(found.deviations, exact.theta_sd, 5);
    near(
      [found.shape, found.rate, found.shapeSd, found.rateSd],
      [exact.alpha, exact.beta, exact.alpha_sd, exact.beta_sd],
      5,
    );
    const simulated = record<Moments>('pumps-bugs');
    // Its own time-series errors reach 0.013; four of them.
    found.means.forEach((mean, i) =>
      expect(Math.abs(mean - (simulated.theta_mean[i] ?? NaN))).toBeLessThan(0.052),
    );
    found.deviations.forEach((one, i) =>
      expect(Math.abs(one - (simulated.theta_sd[i] ?? NaN))).toBeLessThan(0.052),
    );
    expect(Math.abs(found.shape - simulated.alpha)).toBeLessThan(0.052);
    expect(Math.abs(found.rate - simulated.beta)).toBeLessThan(0.052);
    expect(Math.abs(found.shapeSd - simulated.alpha_sd)).toBeLessThan(0.052);
    expect(Math.abs(found.rateSd - simulated.beta_sd)).toBeLessThan(0.052);
  });
});

describe('what is learnt from counts', () => {
  it('girls among births, statistics.yaml placenta-praevia and placenta-praevia-exact', () => {
    const births = { a: 438, b: 544 };
    const { mean, sd } = betaMoments(births);
    const interval = [betaQuantile(births, 0.025), betaQuantile(births, 0.975)];
    const printed = record<{ mean: number; sd: number; interval: number[] }>('placenta-praevia');
    near([mean, sd, ...interval], [printed.mean, printed.sd, ...printed.interval], 3);
    const exact = record<{
      mean: number;
      sd: number;
      interval: number[];
      median: number;
      'p_below_0.485': number;
    }>('placenta-praevia-exact');
    near([mean, sd, ...interval], [exact.mean, exact.sd, ...exact.interval], 11);
    expect(betaQuantile(births, 0.5)).toBeCloseTo(exact.median, 11);
    expect(betaAtMost(births, 0.485)).toBeCloseTo(exact['p_below_0.485'], 11);
  });

  it('shares of several causes, statistics.yaml dirichlet', () => {
    const wanted = record<{
      posterior: number[];
      mean: number[];
      sd: number[];
      log_evidence: number;
      next_two_both_first: number;
    }>('dirichlet');
    const found = updatedShares([2, 3, 1, 4], [5, 0, 2, 1]);
    expect(found.posterior).toEqual(wanted.posterior);
    near(found.mean, wanted.mean, 13);
    near(found.sd, wanted.sd, 13);
    expect(found.logEvidence).toBeCloseTo(wanted.log_evidence, 11);
    expect(found.chanceOfNext([2, 0, 0, 0])).toBeCloseTo(wanted.next_two_both_first, 13);
  });

  it('a share, statistics.yaml beta-update', () => {
    const wanted = record<Record<string, number> & { posterior: number[]; interval95: number[] }>(
      'beta-update',
    );
    const [a = NaN, b = NaN] = wanted.posterior;
    expect([2 + 3, 8 + 2]).toEqual([a, b]);
    expect(betaMoments({ a, b }).mean).toBeCloseTo(wanted['mean'] ?? NaN, 13);
    near([betaQuantile({ a, b }, 0.025), betaQuantile({ a, b }, 0.975)], wanted.interval95, 12);
    expect(1 - betaAtMost({ a, b }, 0.2)).toBeCloseTo(wanted['p_above_0.2'] ?? NaN, 12);
    expect(Math.exp(logChoose(5, 3) + logBeta(5, 10) - logBeta(2, 8))).toBeCloseTo(
      wanted['beta_binomial_p_3_of_5'] ?? NaN,
      12,
    );
  });

  it('a rate, statistics.yaml gamma-poisson-update', () => {
    const wanted = record<{
      posterior: number[];
      mean: number;
      interval95: number[];
      p_next_100h_none: number;
    }>('gamma-poisson-update');
    const rate = updatedRate({ shape: 2, rate: 100 }, { count: 5, exposure: 150 });
    expect([rate.shape, rate.rate]).toEqual(wanted.posterior);
    expect(rate.shape / rate.rate).toBeCloseTo(wanted.mean, 14);
    near([gammaQuantile(rate, 0.025), gammaQuantile(rate, 0.975)], wanted.interval95, 13);
    expect(gammaAtMost(rate, wanted.interval95[0] ?? NaN)).toBeCloseTo(0.025, 12);
    expect(chanceOfNone(rate, 100)).toBeCloseTo(wanted.p_next_100h_none, 13);
  });
});

describe('scores of forecasts', () => {
  it('yes or no, statistics.yaml brier-log', () => {
    const wanted = record<{ brier: number; log_score_nat: number; log_score_bit: number }>('brier-log');
    const happened = [1, 1, 0, 0, 1];
    const forecasts = [0.9, 0.7, 0.6, 0.2, 0.1].map((chance, i) => ({ chance, happened: happened[i] === 1 }));
    near(
      [brierScore(forecasts), logScore(forecasts), logScore(forecasts) / Math.LN2],
      [wanted.brier, wanted.log_score_nat, wanted.log_score_bit],
      12,
    );
  });

  it('three classes, statistics.yaml brier-three', () => {
    const wanted = record<{
      brier_sum_over_classes: number;
      log_nat: number;
      ranked_probability_score: number;
    }>('brier-three');
    const { brier, log, ranked } = classScores([0.6, 0.3, 0.1], 1);
    near(
      [brier, log, ranked],
      [wanted.brier_sum_over_classes, wanted.log_nat, wanted.ranked_probability_score],
      12,
    );
  });
});

it('what most of it is, statistics.yaml pareto: three causes reach 79 %, not 80', () => {
  const wanted = record<{
    counts: Record<string, number>;
    cumulative_percent: number[];
    causes_for_80_percent: number;
    cumulative_after_3: number;
  }>('pareto');
  const { order, cumulative, countFor } = fallingShares(Object.values(wanted.counts));
  expect(order).toEqual([0, 1, 2, 3, 4, 5]);
  near(
    cumulative.map((one) => one * 100),
    wanted.cumulative_percent,
    9,
  );
  expect(countFor(0.8)).toBe(wanted.causes_for_80_percent);
  expect(countFor(0.79)).toBe(3);
  expect((cumulative[2] ?? 0) * 100).toBeCloseTo(wanted.cumulative_after_3, 9);
  const [e, f] = [garwoodLimits(7), garwoodLimits(5)];
  expect(f.high).toBeGreaterThan(e.low);
});

it('two printers, statistics.yaml two-printers: test and limits go by one convention', () => {
  const wanted = record<{ rate_ratio: number; p_two_sided: number; p_one_sided: number; ratio_95: number[] }>(
    'two-printers',
  );
  const [first, second] = [
    { count: 9, exposure: 300 },
    { count: 3, exposure: 400 },
  ];
  const found = compareRates(first, second);
  expect(found.ratio).toBeCloseTo(wanted.rate_ratio, 12);
  expect(found.chanceOfAtLeast).toBeCloseTo(wanted.p_one_sided, 12);
  near([found.low, found.high], wanted.ratio_95, 9);
  expect(found.chanceTwoSided).toBeCloseTo(2 * wanted.p_one_sided, 12);
  expect(found.chanceTwoSided > 0.05).toBe(found.low < 1);
  expect(chanceOfNoLikelier(first, second)).toBeCloseTo(wanted.p_two_sided, 12);
});

it('every record of statistics.yaml is named beside a check', () => {
  const text = readFileSync(path.join(import.meta.dirname, 'reference/statistics.yaml'), 'utf8');
  const checks = readFileSync(import.meta.filename, 'utf8');
  const missing = (parse(text) as { id: string }[]).filter(({ id }) => !checks.includes(id));
  expect(missing.map(({ id }) => id)).toEqual([]);
});
