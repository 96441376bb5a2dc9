/** Cross-sections, flows and lengths of filament and bead: plain geometry. mm, mm², mm³/s, mm/s. */

/** Cross-section of filament, mm²: π d²/4. */
export function filamentAreaMm2(diameterMm: number): number {
  return (Math.PI / 4) * requirePositive(diameterMm, 'filament diameter', 'mm') ** 2;
}

/**
 * Cross-section of a deposited bead of width W and height h with half-round ends, mm²: π h²/4 + h (W - h). Requires
 * W ≥ h > 0. A plain rectangle, as some job files are worked out with, has W h and some 10 % more.
 */
export function beadAreaMm2(widthMm: number, heightMm: number): number {
  requirePositive(heightMm, 'bead height', 'mm');
  if (!(widthMm >= heightMm))
    throw new RangeError(`a bead is at least as wide as high, not ${widthMm} × ${heightMm} mm`);
  return (Math.PI / 4) * heightMm ** 2 + heightMm * (widthMm - heightMm);
}

/** Filament feed, mm/s, for a volumetric flow, mm³/s. */
export function feedMmPerS(flowMm3PerS: number, filamentDiameterMm: number): number {
  return flowMm3PerS / filamentAreaMm2(filamentDiameterMm);
}

/** Length of filament of a mass, m; density in kg/m³. */
export function filamentLengthM(massKg: number, densityKgPerM3: number, diameterMm: number): number {
  return (massKg / requirePositive(densityKgPerM3, 'density', 'kg/m³') / filamentAreaMm2(diameterMm)) * 1e6;
}

/** Share by which the flow is off when the filament is thicker than set: (d + δ)²/d² - 1. */
export function flowErrorOfDiameter(diameterMm: number, errorMm: number): number {
  return ((requirePositive(diameterMm, 'filament diameter', 'mm') + errorMm) / diameterMm) ** 2 - 1;
}

export function requirePositive(value: number, what: string, unit: string): number {
  if (!(value > 0 && value < Infinity))
    throw new RangeError(`${what} is a number of ${unit} above 0, not ${value}`);
  return value;
}
