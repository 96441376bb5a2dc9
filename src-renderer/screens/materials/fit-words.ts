import type { FitVerdict } from '../../../src-core/contract/fit-verdicts.ts';
import type { MaterialProperty } from '../../../src-core/knowledge/schema.ts';
import type { FitMargin, FitReport } from '../../../src-core/contract/material-fit.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';

export const VERDICT_WORDS: Readonly<Record<FitVerdict, string>> = {
  suits: 'Suits',
  'suits-with-limits': 'Suits with limits',
  'not-known': 'Not known',
  'does-not-suit': 'Does not suit',
};

/** What else decides between materials that suit, as it stands in the guide. */
export const COMPARED_PROPERTIES: readonly (readonly [MaterialProperty, string])[] = [
  ['nozzleTempC', 'Nozzle'],
  ['plateTempC', 'Bed'],
  ['chamberTempC', 'Chamber'],
  ['dryingTempC', 'Dried at'],
  ['dryingHours', 'Dried for'],
  ['smallestNozzleMm', 'Smallest nozzle'],
];

/** A margin as people say it: "33 to 41 °C to spare", "3 to 10 °C short", "a grade short". */
export function marginWords(margin: FitMargin, unit: TemperatureUnit): string {
  if (margin.kind === 'grades') return gradeSteps(margin.steps);
  if (margin.kind === 'times') return `met ${span(round1(margin.low), round1(margin.high))} times`;
  const scale = unit === '°F' ? 1.8 : 1;
  const low = Math.round(margin.low * scale);
  const high = Math.round(margin.high * scale);
  const wanted = Math.round(margin.wanted * scale);
  if (low >= 0)
    return `${span(low, high)} ${unit} to spare${low < wanted ? `, ${wanted} ${unit} wanted` : ''}`;
  if (high <= 0) return `${span(-high, -low)} ${unit} short`;
  return `${-low} ${unit} short to ${high} ${unit} to spare`;
}

/**
 * What to say of a part that failed where the guide names no cause for it: what of the use speaks against the material all
 * the same, what is not known, or that nothing does.
 */
export function withoutCauseWords({ fit }: Pick<NonNullable<FitReport['failedPart']>, 'fit'>): string {
  const labelsOf = (verdict: FitVerdict) =>
    fit.judgements
      .filter((one) => one.verdict === verdict)
      .map(({ label }) => label)
      .join(', ');
  const against = labelsOf('does-not-suit');
  const limits = labelsOf('suits-with-limits');
  const unknown = labelsOf('not-known');
  const said = [
    against && `This speaks against the material: ${against}.`,
    limits && `The material takes this with limits only: ${limits}.`,
    unknown && `Not known whether the material takes this: ${unknown}.`,
  ].filter(Boolean);
  if (said.length > 0) return `${said.join(' ')} The reasons stand below.`;
  return 'What you have said of the use does not speak against this material. Look for other causes: how it was printed, how it was loaded.';
}

function gradeSteps(steps: number): string {
  if (steps === 0) return 'just met';
  const count = Math.abs(steps) === 1 ? 'a grade' : `${Math.abs(steps)} grades`;
  return steps > 0 ? `${count} to spare` : `${count} short`;
}

function span(low: number, high: number): string {
  return low === high ? `${low}` : `${low} to ${high}`;
}

function round1(value: number): number {
  return Math.round(value * 10) / 10;
}
