import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Material } from '../knowledge/schema.ts';
import { ZERO_CELSIUS_K } from './humid-air.ts';

/** The 10, 50 and 90 % points of a number that is known only roughly. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}
/** Which point of a range is meant. */
export type Grade = keyof Range;
export const GRADES: readonly Grade[] = ['low', 'likely', 'high'];

/** Standard normal deviate of the 90 % point. */
export const NINETY_PERCENT_DEVIATE = 1.2815515655446004;

const GAS_CONSTANT = 8.31446261815324;
const REFERENCE_K = 23 + ZERO_CELSIUS_K;

/** How one filament takes up water: SI units, contents as mass of water per mass of dry filament. */
export interface MaterialWater {
  readonly polymer: string;
  /** Equilibrium content at 23 °C and 50 % relative humidity. */
  readonly equilibriumAt50: Range;
  /** c of content = a RH^c. */
  readonly humidityExponent: number;
  readonly diffusivityAt23M2PerS: Range;
  readonly activationEnergyJPerMol: Range;
  /** Content above which steam troubles a print through a 0.4 mm nozzle at `REFERENCE_FLOW_MM3_PER_S`. */
  readonly printingLimit: Range;
  readonly densityKgPerM3: number;
  /** The filament or its winding suffers above this. */
  readonly highestDryingC: number;
  readonly dryingLimitWhy: string;
  readonly glassTransitionC: { readonly low: number; readonly high: number } | null;
}

/**
 * What the guide knows of a polymer and water, as numbers to compute with.
 *
 * `fillerMassFraction` (0 to less than 1) is the share of fibres or powder: the uptake falls in proportion to the
 * polymer's share (rule of resin data, e.g. PA6-GF30 = 0.7 PA6). That is too little for wood and aramid, which drink
 * themselves. Diffusivity and printing limit are taken as the polymer's own.
 * Throws for a polymer that the guide has no water data of.
 */
export function materialWaterOf(
  knowledge: Pick<Knowledge, 'materials' | 'water'>,
  polymer: string,
  fillerMassFraction = 0,
): MaterialWater {
  if (!(fillerMassFraction >= 0 && fillerMassFraction < 1)) {
    throw new RangeError(
      `share of filler is a fraction from 0 to less than 1 (30 % is 0.3), not ${fillerMassFraction}`,
    );
  }
  const water = knowledge.water.get(polymer);
  const material = knowledge.materials.get(polymer);
  if (!water || !material) {
    const known = [...knowledge.water.keys()].join(', ');
    throw new Error(`the guide has no water data of "${polymer}"; it has ${known}`);
  }
  const highestDryingC = numberOf(material, 'dryingMaxTempC');
  if (highestDryingC === null)
    throw new Error(`the guide names no highest drying temperature of "${polymer}"`);
  const glass = material.properties.glassTransitionC;
  const glassValue = numberOf(material, 'glassTransitionC');
  const why = material.properties.dryingLimitWhy?.value;
  return {
    polymer,
    equilibriumAt50: scaled(water.equilibriumAt50Percent, (1 - fillerMassFraction) / 100),
    humidityExponent: water.humidityExponent.value,
    diffusivityAt23M2PerS: scaled(water.diffusivityAt23, 1),
    activationEnergyJPerMol: scaled(water.activationEnergyKjPerMol, 1000),
    printingLimit: scaled(water.printingLimitPercent, 1 / 100),
    densityKgPerM3: water.densityKgPerM3.value,
    highestDryingC,
    dryingLimitWhy: typeof why === 'string' ? why : '',
    glassTransitionC:
      glass?.low !== undefined && glass.high !== undefined
        ? { low: glass.low, high: glass.high }
        : glassValue === null
          ? null
          : { low: glassValue, high: glassValue },
  };
}

/**
 * Content in equilibrium with air of this relative humidity (fraction): a RH^c through the value at 50 %.
 *
 * The same at every temperature, as heat of sorption and heat of condensation nearly cancel: polyetherimide holds 1.39 %
 * at 20 °C and 1.5 % at 100 °C (J. Appl. Polym. Sci. 77 (2000) 1439). Polycarbonate holds up to 1.7 times more at 100 °C.
 */
export function equilibriumMassFraction(
  water: MaterialWater,
  relativeHumidity: number,
  grade: Grade,
): number {
  return capacityMassFraction(water, grade) * relativeHumidity ** water.humidityExponent;
}

/** Content in equilibrium with saturated air: the a of a RH^c. */
export function capacityMassFraction(water: MaterialWater, grade: Grade): number {
  return water.equilibriumAt50[grade] * 2 ** water.humidityExponent;
}

/**
 * Diffusivity of water in the polymer, m²/s, by Arrhenius from 23 °C.
 *
 * Low and high hold the doubt about the value at 23 °C and about the activation energy, taken as independent and
 * log-normal, so they spread with the distance from 23 °C. Nothing is added at the glass transition: above it the truth
 * is rather higher.
 */
export function diffusivityM2PerS(water: MaterialWater, temperatureC: number, grade: Grade): number {
  const { likely } = water.diffusivityAt23M2PerS;
  const distance = (1 / REFERENCE_K - 1 / (temperatureC + ZERO_CELSIUS_K)) / GAS_CONSTANT;
  const energy = water.activationEnergyJPerMol;
  const middle = Math.log(likely) + energy.likely * distance;
  if (grade === 'likely') return Math.exp(middle);
  const byValue = Math.log(water.diffusivityAt23M2PerS[grade] / likely);
  const byEnergy = (energy[grade] - energy.likely) * distance;
  const spread = Math.hypot(byValue, byEnergy);
  return Math.exp(grade === 'high' ? middle + spread : middle - spread);
}

/** Points of the isotherm for a plot, from dry to saturated air. */
export function isothermPoints(
  water: MaterialWater,
  steps = 20,
): readonly { readonly relativeHumidity: number; readonly massFraction: Range }[] {
  return Array.from({ length: steps + 1 }, (_, i) => {
    const relativeHumidity = i / steps;
    const at = (grade: Grade) => equilibriumMassFraction(water, relativeHumidity, grade);
    return { relativeHumidity, massFraction: { low: at('low'), likely: at('likely'), high: at('high') } };
  });
}

function scaled(range: Range, factor: number): Range {
  return { low: range.low * factor, likely: range.likely * factor, high: range.high * factor };
}

function numberOf(material: Material, property: 'dryingMaxTempC' | 'glassTransitionC'): number | null {
  const value = material.properties[property]?.value;
  return typeof value === 'number' ? value : null;
}
