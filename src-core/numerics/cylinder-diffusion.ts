import { besselJ01, zerosOfJ0 } from './bessel.ts';

/** So many terms leave less than 1e-9 from `SHORT_TIME` on. */
const TERMS = 64;
const SHORT_TIME = 4e-4;
/** Before this time nothing worth 1e-10 has reached the axis. */
const CENTRE_TIME = 5e-3;

const ZEROS = zerosOfJ0(TERMS);

/**
 * Modes of diffusion in a long cylinder with a given surface concentration: mode n fades as exp(-rate_n D t/a²). Its
 * weight is its share of the mean content, its centre weight its share of the content on the axis. The weights of all
 * modes sum to 1; the first M leave about 4/(π² M).
 *
 * Source: Crank J., The Mathematics of Diffusion, 2nd ed. (1975), equations 5.22 and 5.23.
 */
export function cylinderModes(count: number): {
  readonly rates: Float64Array;
  readonly weights: Float64Array;
  readonly centreWeights: Float64Array;
} {
  const zeros = count <= TERMS ? ZEROS.slice(0, count) : zerosOfJ0(count);
  return {
    rates: zeros.map((zero) => zero * zero),
    weights: zeros.map((zero) => 4 / (zero * zero)),
    centreWeights: zeros.map((zero) => 2 / (zero * besselJ01(zero).j1)),
  };
}

const MODES = cylinderModes(TERMS);

/**
 * Share of the change that has gone into (or out of) a long cylinder since its surface changed: Mt/Minf, 0 to 1.
 *
 * `fourierNumber` is D t/a², from 0 up. Source: Crank (1975), equation 5.23; for short times the expansion
 * 4 √(T/π) - T - T^1.5/(3 √π) - T²/8 (Crank 5.3, its last term from the Laplace transform). Error below 1e-9.
 */
export function cylinderUptake(fourierNumber: number): number {
  const time = requireFourierNumber(fourierNumber);
  if (time < SHORT_TIME) {
    return 4 * Math.sqrt(time / Math.PI) - time - time ** 1.5 / (3 * Math.sqrt(Math.PI)) - time ** 2 / 8;
  }
  return 1 - sumOfModes(MODES.weights, time);
}

/** Share of the change that has reached the axis of the cylinder, 0 to 1. Source: Crank (1975), equation 5.22. */
export function cylinderCentre(fourierNumber: number): number {
  const time = requireFourierNumber(fourierNumber);
  return time < CENTRE_TIME ? 0 : 1 - sumOfModes(MODES.centreWeights, time);
}

/** D t/a² at which this share (0 to 1, 1 not included) of the change has gone in: `cylinderUptake` turned round. */
export function cylinderTimeFor(share: number): number {
  if (!(share >= 0 && share < 1)) {
    throw new RangeError(`share of the uptake runs from 0 to less than 1, not ${share}`);
  }
  let low = 0;
  let high = 1;
  while (cylinderUptake(high) < share && high < 10) high *= 2;
  while (high - low > 1e-14 * Math.max(high, 1e-10)) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (cylinderUptake(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function sumOfModes(weights: Float64Array, time: number): number {
  let sum = 0;
  for (let n = 0; n < TERMS; n++) sum += (weights[n] ?? 0) * Math.exp(-(MODES.rates[n] ?? 0) * time);
  return sum;
}

function requireFourierNumber(value: number): number {
  if (!(value >= 0)) throw new RangeError(`D t/a² runs from 0 up, not ${value}`);
  return value;
}
