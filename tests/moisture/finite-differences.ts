import type { ClimateSpan, MaterialWater, SpoolSize } from '../../src-core/moisture/index.ts';

/**
 * Brute-force peers of the modal solution: explicit finite volumes written without its code. They share only the data and
 * their temperature laws, written out again here.
 */
const GAS_CONSTANT = 8.314462618;

const diffusivityAt = (water: MaterialWater, celsius: number) =>
  water.diffusivityAt23M2PerS.likely *
  Math.exp((water.activationEnergyJPerMol.likely / GAS_CONSTANT) * (1 / 296.15 - 1 / (celsius + 273.15)));

const equilibriumAt = (water: MaterialWater, humidity: number) =>
  water.equilibriumAt50.likely * (humidity / 0.5) ** water.humidityExponent;

/** Mean and axis of a loose strand that starts dry, in `cells` shells of equal thickness. */
export function looseByDifferences(
  water: MaterialWater,
  radiusM: number,
  climate: readonly ClimateSpan[],
  cells: number,
): { readonly mean: number; readonly core: number } {
  const shell = radiusM / cells;
  const content = new Float64Array(cells);
  const areas = Array.from({ length: cells }, (_, i) => (2 * i + 1) * shell * shell);
  for (const span of climate) {
    const diffusivity = diffusivityAt(water, span.temperatureC);
    const surface = equilibriumAt(water, span.relativeHumidity);
    const seconds = span.durationHours * 3600;
    const steps = Math.max(1, Math.ceil((seconds * diffusivity) / (0.2 * shell * shell)));
    const dt = seconds / steps;
    for (let step = 0; step < steps; step++) {
      let fluxFromInside = 0;
      for (let i = 0; i < cells; i++) {
        const here = content[i] ?? 0;
        const edge = (i + 1) * shell;
        const outwards =
          i === cells - 1
            ? ((2 * edge) / (shell / 2)) * (surface - here)
            : ((2 * edge) / shell) * ((content[i + 1] ?? 0) - here);
        content[i] = here + ((outwards - fluxFromInside) * diffusivity * dt) / (areas[i] ?? 1);
        fluxFromInside = outwards;
      }
    }
  }
  const mean = content.reduce((sum, one, i) => sum + one * (areas[i] ?? 0), 0) / (radiusM * radiusM);
  return { mean, core: content[0] ?? 0 };
}

/**
 * A wound spool of a polymer that follows Henry's law, starting dry: 24 rings of equal thickness, each strand in 36 shells.
 * `innerShare` of the mass, next to the hub, is read as the inner wraps; the outermost ring is about one wrap.
 * The outermost shell is in equilibrium with the air of its ring, which holds no water of its own.
 */
export function windingByDifferences(
  water: MaterialWater,
  size: SpoolSize,
  climate: readonly ClimateSpan[],
  innerShare: number,
): { readonly mean: number; readonly outer: number; readonly inner: number } {
  if (water.humidityExponent !== 1) throw new Error('this peer knows straight isotherms only');
  const [rings, shells, openness, packing, stillAirM] = [24, 36, 0.06, 0.8, 5e-3];
  const hub = size.hubDiameterMm / 2000;
  const width = size.widthMm / 1000;
  const strandRadius = size.filamentDiameterMm / 2000;
  const outer = Math.sqrt(hub ** 2 + size.filamentKg / (water.densityKgPerM3 * packing * Math.PI * width));
  const thickness = (outer - hub) / rings;
  const shell = strandRadius / shells;
  const shareOf = (i: number) => (2 * i + 1) / shells ** 2;
  const capacity = water.equilibriumAt50.likely * 2;
  const radiusOf = (ring: number) => outer - (ring + 0.5) * thickness;
  const massOf = (ring: number) =>
    2 * Math.PI * radiusOf(ring) * thickness * width * packing * water.densityKgPerM3;
  const contents = Array.from({ length: rings }, () => new Float64Array(shells));
  const skin = (ring: number) => (contents[ring]?.[shells - 1] ?? 0) / capacity;
  for (const span of climate) {
    const kelvin = span.temperatureC + 273.15;
    // Magnus form of Alduchov & Eskridge (1996): another vapour pressure than the code under test, 0.25 % off.
    const saturationPa = 610.94 * Math.exp((17.625 * span.temperatureC) / (243.04 + span.temperatureC));
    const path = (2.5e-5 * (kelvin / 298.15) ** 1.81 * saturationPa) / (461.526 * kelvin);
    const diffusivity = diffusivityAt(water, span.temperatureC);
    const seconds = span.durationHours * 3600;
    const dt = 10;
    for (let step = 0; step < seconds / dt; step++) {
      // Vapour through ring edges, outermost first, kg in this step.
      const through = Array.from({ length: rings + 1 }, (_, edge) => {
        if (edge === rings) return 0;
        const area = 2 * Math.PI * (outer - edge * thickness) * width;
        if (edge > 0) return (area * openness * path * dt * (skin(edge - 1) - skin(edge))) / thickness;
        const resistance = stillAirM + thickness / 2 / openness;
        return (area * path * dt * (span.relativeHumidity - skin(0))) / resistance;
      });
      contents.forEach((content, ring) => {
        let fromInside = 0;
        for (let i = 0; i < shells; i++) {
          const outwards =
            i === shells - 1
              ? 0
              : 2 *
                (i + 1) *
                shell *
                (((content[i + 1] ?? 0) - (content[i] ?? 0)) / shell) *
                diffusivity *
                dt;
          const gained = (outwards - fromInside) / (shareOf(i) * strandRadius ** 2);
          content[i] = (content[i] ?? 0) + gained;
          fromInside = outwards;
        }
        const arrived = ((through[ring] ?? 0) - (through[ring + 1] ?? 0)) / massOf(ring);
        content[shells - 1] = (content[shells - 1] ?? 0) + arrived / shareOf(shells - 1);
      });
    }
  }
  const ringMean = (ring: number) =>
    contents[ring]?.reduce((sum, one, i) => sum + one * shareOf(i), 0) ?? NaN;
  const meanOver = (from: number, to: number) => {
    let [water_, mass] = [0, 0];
    for (let ring = from; ring < to; ring++) {
      water_ += massOf(ring) * ringMean(ring);
      mass += massOf(ring);
    }
    return water_ / mass;
  };
  let innerFrom = rings;
  let innerMass = 0;
  while (innerMass < innerShare * size.filamentKg && innerFrom > 0) innerMass += massOf(--innerFrom);
  return { mean: meanOver(0, rings), outer: ringMean(0), inner: meanOver(innerFrom, rings) };
}
