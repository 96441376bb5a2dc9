import { ZERO_CELSIUS_K } from './humid-air.ts';
import type { Range } from './material-water.ts';

/**
 * Share of free air that a winding leaves to vapour on its way inwards: porosity over tortuosity of its gaps.
 * Estimate: strands side by side leave 10 to 20 % of air, but touch, so the throats are a few per cent.
 */
export const WINDING_OPENNESS: Range = { low: 0.02, likely: 0.06, high: 0.15 };

/** Share of the winding's volume that is filament. Estimate: 0.91 in the densest packing, 0.79 in a square one. */
const PACKING = 0.8;
/** Still air on the winding, m. Estimate for a spool in a room. */
const STILL_AIR_M = 5e-3;
/** Rings of the winding, the outermost one wrap thick. The mean is within 3 % of a run with many thin ones. */
const LAYERS = 6;

/** Filament on a spool: what is left of it and how it is wound. */
export interface SpoolSize {
  readonly filamentDiameterMm: number;
  /** Filament left, without the spool. */
  readonly filamentKg: number;
  readonly hubDiameterMm: number;
  readonly widthMm: number;
}

/** A spool of one kilogram as most are wound. Common practice. */
export const ONE_KILOGRAM_SPOOL: SpoolSize = {
  filamentDiameterMm: 1.75,
  filamentKg: 1,
  hubDiameterMm: 90,
  widthMm: 60,
};

/**
 * The winding cut into rings, outermost first. Vapour comes in through the outer face only: flanges are taken as tight.
 * A loose strand is a winding of one ring with nothing between it and the air.
 */
export interface Winding {
  readonly strandRadiusM: number;
  /** Dry mass of each ring as a share of the whole. */
  readonly massShares: readonly number[];
  readonly filamentKg: number;
  /**
   * Conductance for vapour from outside into the middle of the first ring, from there to the second and so on, as a shape
   * in metres: times diffusivity in air it is m³/s. Still air on the outside is kept apart, as it is fully open.
   */
  readonly ringShapesM: readonly number[];
  readonly stillAirShapeM: number;
  readonly depthM: number;
  readonly isLoose: boolean;
}

/** A strand alone in the air: a sample, or the stretch between spool and machine. */
export function looseStrand(filamentDiameterMm: number): Winding {
  return {
    strandRadiusM: requirePositive(filamentDiameterMm, 'filament diameter', 'mm') / 2000,
    massShares: [1],
    filamentKg: 1,
    ringShapesM: [],
    stillAirShapeM: 0,
    depthM: 0,
    isLoose: true,
  };
}

/** Rings of a wound spool of filament of this density. */
export function woundSpool(size: SpoolSize, densityKgPerM3: number): Winding {
  const diameter = requirePositive(size.filamentDiameterMm, 'filament diameter', 'mm') / 1000;
  const hub = requirePositive(size.hubDiameterMm, 'hub diameter', 'mm') / 2000;
  const width = requirePositive(size.widthMm, 'width of the winding', 'mm') / 1000;
  const mass = requirePositive(size.filamentKg, 'filament left', 'kg');
  const outer = Math.sqrt(hub * hub + mass / (densityKgPerM3 * PACKING * Math.PI * width));
  const depth = outer - hub;
  const edges = ringEdges(outer, depth, diameter);
  const middles = edges.slice(1).map((inner, i) => ((edges[i] ?? outer) + inner) / 2);
  const area = outer * outer - hub * hub;
  return {
    strandRadiusM: diameter / 2,
    massShares: edges.slice(1).map((inner, i) => ((edges[i] ?? outer) ** 2 - inner ** 2) / area),
    filamentKg: mass,
    ringShapesM: middles.map(
      (middle, i) => (2 * Math.PI * width) / Math.log((i === 0 ? outer : (middles[i - 1] ?? outer)) / middle),
    ),
    stillAirShapeM: (2 * Math.PI * outer * width) / STILL_AIR_M,
    depthM: depth,
    isLoose: false,
  };
}

/** Diffusivity of water vapour in air of 1 atm, m²/s: 2.5e-5 at 25 °C, rising as T^1.81 (Montgomery 1947, from memory). */
export function vapourDiffusivityM2PerS(temperatureC: number): number {
  return 2.5e-5 * ((temperatureC + ZERO_CELSIUS_K) / 298.15) ** 1.81;
}

/** Radii from outside to the hub: first one wrap, then rings that grow by a constant factor. */
function ringEdges(outer: number, depth: number, wrap: number): number[] {
  if (depth <= LAYERS * wrap) {
    return Array.from({ length: LAYERS + 1 }, (_, i) => outer - (depth * i) / LAYERS);
  }
  const spanned = (factor: number) =>
    Array.from({ length: LAYERS }, (_, i) => wrap * factor ** i).reduce((sum, ring) => sum + ring, 0);
  let low = 1;
  let high = 100;
  while (spanned(high) < depth) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (spanned(middle) < depth) low = middle;
    else high = middle;
  }
  const edges = [outer];
  for (let i = 0; i < LAYERS; i++) edges.push((edges[i] ?? outer) - wrap * low ** i);
  edges[LAYERS] = outer - depth;
  return edges;
}

function requirePositive(value: number, what: string, unit: string): number {
  if (!(value > 0 && Number.isFinite(value))) {
    throw new RangeError(`${what} is a number of ${unit} above 0, not ${value}`);
  }
  return value;
}
