import { vapourPathKgPerMS } from './climate.ts';
import { cylinderModes } from '../numerics/cylinder-diffusion.ts';
import { requireAir, type Air } from './humid-air.ts';
import {
  capacityMassFraction,
  diffusivityM2PerS,
  equilibriumMassFraction,
  type Grade,
  type MaterialWater,
} from './material-water.ts';
import { WINDING_OPENNESS, type Winding } from './winding.ts';

/** How wet the filament was to begin with: a measured content, or long enough in air of this humidity. */
export type WaterStart =
  | { readonly kind: 'content'; readonly massFraction: number }
  | { readonly kind: 'in-equilibrium'; readonly relativeHumidity: number };

/** Which points of the uncertain data to compute with: how much the polymer holds, and how fast water moves. */
export interface DataPoint {
  readonly equilibrium: Grade;
  /** Diffusivity in the polymer and openness of the winding, taken together: the cautious way. */
  readonly speed: Grade;
}
export const LIKELY: DataPoint = { equilibrium: 'likely', speed: 'likely' };

/** Contents of one strand, as mass fractions. */
export interface StrandWater {
  readonly mean: number;
  readonly surface: number;
  readonly core: number;
}
/** Contents of a spool: of the whole, of the outermost wrap, and of the ring of wraps next to the hub. */
export interface SpoolWater {
  readonly mean: number;
  readonly outer: StrandWater;
  readonly inner: StrandWater;
}

/** Modes followed one by one in a wound strand; the 3 % of content in faster ones keep up with the surface. */
const WOUND_MODES = 12;
const LOOSE_MODES = 60;
/** Newton's method has done enough when no humidity moved by more than this share of itself. */
const SMALL_CHANGE = 2e-3;
const MOST_ROUNDS = 40;

/**
 * Water in a winding, step by step.
 *
 * Each strand follows the exact solution for a surface that stays the same during a step: every mode of Crank's series
 * (1975, equation 5.23) moves towards the surface content by the factor exp(-α² D t/a²) (Duhamel). The surface is in
 * equilibrium with the air of its ring. That air holds next to no water itself, so in each step what diffuses into a ring
 * equals what its strands take up: a tridiagonal system for the humidities of the rings at the end of the step, solved by
 * Newton's method. What comes through the outer face is what the filament gains, to rounding.
 *
 * Assumed: the spool has the temperature of the room; flanges are tight; the isotherm is the same up and down; diffusivity
 * does not depend on content, though in nylon it rises several-fold.
 */
export class WoundWater {
  /** Water that came in through the outer face so far, kg; negative when it dried. Not counted for a loose strand. */
  takenUpKg = 0;
  private readonly winding: Winding;
  private readonly water: MaterialWater;
  private readonly point: DataPoint;
  private readonly capacity: number;
  private readonly rates: Float64Array;
  private readonly weights: Float64Array;
  private readonly centreWeights: Float64Array;
  private readonly restWeight: number;
  /** Average of each mode, ring by ring: index ring * modes + mode. */
  private readonly modes: Float64Array;
  private readonly surface: Float64Array;
  private readonly humidity: Float64Array;
  private readonly massKg: Float64Array;
  /** Conductance shapes, m: into ring 0, from ring 0 to ring 1, … */
  private readonly shapes: Float64Array;
  private readonly fading: Float64Array;
  /** Share of a step of the surface that each mode takes in during the step. */
  private readonly goingIn: Float64Array;
  private readonly carried: Float64Array;
  private readonly slopes: Float64Array;
  private readonly pivots: Float64Array;
  private readonly change: Float64Array;
  private fadingFor = NaN;
  private gain = 0;

  constructor(winding: Winding, water: MaterialWater, start: WaterStart, point: DataPoint = LIKELY) {
    const modes = cylinderModes(winding.isLoose ? LOOSE_MODES : WOUND_MODES);
    const rings = winding.massShares.length;
    const openness = WINDING_OPENNESS[point.speed];
    this.winding = winding;
    this.water = water;
    this.point = point;
    this.capacity = capacityMassFraction(water, point.equilibrium);
    this.rates = modes.rates;
    this.weights = modes.weights;
    this.restWeight = 1 - modes.weights.reduce((sum, weight) => sum + weight, 0);
    // The centre's series alternates: half of the last term stands for all that are left out.
    this.centreWeights = modes.centreWeights;
    const last = modes.centreWeights.length - 1;
    this.centreWeights[last] = (this.centreWeights[last] ?? 0) / 2;
    const content = contentAtStart(start, water, point.equilibrium);
    this.modes = new Float64Array(rings * this.rates.length).fill(content);
    this.surface = new Float64Array(rings).fill(content);
    this.humidity = new Float64Array(rings).fill(
      Math.min(1, (content / this.capacity) ** (1 / water.humidityExponent)),
    );
    this.massKg = Float64Array.from(winding.massShares, (share) => share * winding.filamentKg);
    this.shapes = Float64Array.from(winding.ringShapesM, (shape, i) =>
      i === 0 ? 1 / (1 / winding.stillAirShapeM + 1 / (shape * openness)) : shape * openness,
    );
    this.fading = new Float64Array(this.rates.length);
    this.goingIn = new Float64Array(this.rates.length);
    this.carried = new Float64Array(rings);
    this.slopes = new Float64Array(rings);
    this.pivots = new Float64Array(rings);
    this.change = new Float64Array(rings);
  }

  /** Leaves the spool in this air for some hours, in one step. */
  expose(air: Air, hours: number): void {
    requireAir(air);
    const diffusivity = diffusivityM2PerS(this.water, air.temperatureC, this.point.speed);
    this.step(hours * 3600, air.relativeHumidity, diffusivity, vapourPathKgPerMS(air.temperatureC));
  }

  /** One step with everything known about the air worked out beforehand; `vapourPath` as in `ClimateSteps`. */
  step(seconds: number, relativeHumidity: number, diffusivity: number, vapourPath: number): void {
    this.fadeModes(diffusivity * seconds);
    if (this.winding.isLoose)
      this.surface[0] = this.capacity * relativeHumidity ** this.water.humidityExponent;
    else this.solveHumidities(relativeHumidity, vapourPath * seconds);
    this.moveModes();
  }

  /** Contents as they stand. */
  read(): SpoolWater {
    const rings = this.surface.length;
    let mean = 0;
    for (let ring = 0; ring < rings; ring++) {
      mean += (this.winding.massShares[ring] ?? 0) * this.ringMean(ring);
    }
    return { mean, outer: this.strand(0), inner: this.strand(rings - 1) };
  }

  /** How far each mode fades in this step, and what share of a step of the surface goes in at once. */
  private fadeModes(diffusivityTimesSeconds: number): void {
    if (this.fadingFor === diffusivityTimesSeconds) return;
    this.fadingFor = diffusivityTimesSeconds;
    const time = diffusivityTimesSeconds / this.winding.strandRadiusM ** 2;
    let gain = this.restWeight;
    for (let n = 0; n < this.rates.length; n++) {
      const fading = Math.exp(-(this.rates[n] as number) * time);
      this.fading[n] = fading;
      const share = (this.weights[n] as number) * (1 - fading);
      this.goingIn[n] = share;
      gain += share;
    }
    this.gain = gain;
  }

  /**
   * Humidity of each ring at the end of the step: mass (gain w(h) - carried) = inflow. Convex and rising in each unknown,
   * so Newton's method does not overshoot twice. The last round's straight line stands for the isotherm over its small
   * change; with it the balance of each ring holds to rounding.
   */
  private solveHumidities(room: number, pathSeconds: number): void {
    const { humidity, massKg, shapes, pivots, change, surface, slopes, carried, gain, capacity } = this;
    const rings = massKg.length;
    const exponent = this.water.humidityExponent;
    for (let ring = 0; ring < rings; ring++) carried[ring] = this.carriedOver(ring);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      // Forward sweep of the Thomas algorithm; `change` holds the residuals.
      for (let ring = 0; ring < rings; ring++) {
        const here = humidity[ring] as number;
        const content = exponent === 1 ? capacity * here : capacity * here ** exponent;
        const slope = exponent === 1 ? capacity : here > 0 ? (exponent * content) / here : 0;
        surface[ring] = content;
        slopes[ring] = slope;
        const isLast = ring === rings - 1;
        const outside = (shapes[ring] as number) * pathSeconds;
        const inside = isLast ? 0 : (shapes[ring + 1] as number) * pathSeconds;
        const before = ring === 0 ? room : (humidity[ring - 1] as number);
        const after = isLast ? here : (humidity[ring + 1] as number);
        const mass = massKg[ring] as number;
        let residual =
          mass * (gain * content - (carried[ring] as number)) +
          outside * (here - before) +
          inside * (here - after);
        let pivot = mass * gain * slope + outside + inside;
        if (ring > 0) {
          const share = outside / (pivots[ring - 1] as number);
          residual += share * (change[ring - 1] as number);
          pivot -= share * outside;
        }
        pivots[ring] = pivot;
        change[ring] = residual;
      }
      let largest = 0;
      for (let ring = rings - 1; ring >= 0; ring--) {
        let delta = -(change[ring] as number);
        if (ring + 1 < rings) {
          delta += (shapes[ring + 1] as number) * pathSeconds * (change[ring + 1] as number);
        }
        delta /= pivots[ring] as number;
        change[ring] = delta;
        const next = (humidity[ring] as number) + delta;
        humidity[ring] = next > 0 ? next : 0;
        // Where humidity is low the isotherm bends more within the same change.
        const relative = exponent === 1 ? 0 : Math.abs(delta) / (next > 1e-6 ? next : 1e-6);
        if (relative > largest) largest = relative;
      }
      if (largest < SMALL_CHANGE) break;
    }
    for (let ring = 0; ring < rings; ring++) {
      surface[ring] = (surface[ring] as number) + (slopes[ring] as number) * (change[ring] as number);
    }
    this.takenUpKg += (shapes[0] as number) * pathSeconds * (room - (humidity[0] as number));
  }

  /** What the strands of a ring would lose in the step with a dry surface, as a mass fraction. */
  private carriedOver(ring: number): number {
    const { modes, goingIn, surface } = this;
    const count = goingIn.length;
    let sum = this.restWeight * (surface[ring] as number);
    for (let n = 0; n < count; n++) sum += (goingIn[n] as number) * (modes[ring * count + n] as number);
    return sum;
  }

  /** Each mode on its way to the surface content of its ring. */
  private moveModes(): void {
    const { modes, surface, fading } = this;
    const count = fading.length;
    for (let ring = 0; ring < surface.length; ring++) {
      const content = surface[ring] as number;
      for (let n = 0; n < count; n++) {
        const at = ring * count + n;
        modes[at] = content + ((modes[at] as number) - content) * (fading[n] as number);
      }
    }
  }

  private ringMean(ring: number): number {
    const count = this.rates.length;
    let sum = this.restWeight * (this.surface[ring] ?? 0);
    for (let n = 0; n < count; n++) sum += (this.weights[n] ?? 0) * (this.modes[ring * count + n] ?? 0);
    return sum;
  }

  private strand(ring: number): StrandWater {
    const count = this.rates.length;
    const surface = this.surface[ring] ?? 0;
    let core = surface;
    for (let n = 0; n < count; n++) {
      core += (this.centreWeights[n] ?? 0) * ((this.modes[ring * count + n] ?? 0) - surface);
    }
    return { mean: this.ringMean(ring), surface, core: Math.max(0, core) };
  }
}

function contentAtStart(start: WaterStart, water: MaterialWater, grade: Grade): number {
  if (start.kind === 'in-equilibrium') {
    const { relativeHumidity } = start;
    if (!(relativeHumidity >= 0 && relativeHumidity <= 1)) {
      throw new RangeError(`humidity to begin with is a fraction from 0 to 1, not ${relativeHumidity}`);
    }
    return equilibriumMassFraction(water, relativeHumidity, grade);
  }
  if (!(start.massFraction >= 0 && start.massFraction < 1)) {
    throw new RangeError(
      `water content to begin with is a mass fraction from 0 to less than 1 (0.5 % is 0.005), not ${start.massFraction}`,
    );
  }
  return start.massFraction;
}
