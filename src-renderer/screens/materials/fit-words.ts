import type { FitVerdict } from '../../../src-core/contract/fit-verdicts.ts';
import type { MaterialProperty } from '../../../src-core/knowledge/schema.ts';
import type { FitMargin, FitReport } from '../../../src-core/contract/material-fit.ts';
import type { TemperatureUnit } from '../../../src-core/contract/display-choices.ts';
import { told } from '../../display/told.ts';
import { listed, sentences } from '../../messages/lists.ts';
import { m } from '../../messages/en/fit-words.ts';

export const VERDICT_WORDS: Readonly<Record<FitVerdict, string>> = {
  suits: m.suits(),
  'suits-with-limits': m.suitsWithLimits(),
  'not-known': m.notKnown(),
  'does-not-suit': m.doesNotSuit(),
};

/** What else decides between materials that suit, as it stands in the guide. */
export const COMPARED_PROPERTIES: readonly (readonly [MaterialProperty, string])[] = [
  ['nozzleTempC', m.nozzle()],
  ['plateTempC', m.bed()],
  ['chamberTempC', m.chamber()],
  ['dryingTempC', m.driedAt()],
  ['dryingHours', m.driedFor()],
  ['smallestNozzleMm', m.smallestNozzle()],
];

/** A margin as people say it: "33 to 41 °C to spare", "3 to 10 °C short", "a grade short". */
export function marginWords(margin: FitMargin, unit: TemperatureUnit): string {
  if (margin.kind === 'grades') return gradeSteps(margin.steps);
  if (margin.kind === 'times') return m.metTimes({ span: span(round1(margin.low), round1(margin.high)) });
  const scale = unit === '°F' ? 1.8 : 1;
  const low = Math.round(margin.low * scale);
  const high = Math.round(margin.high * scale);
  const wanted = Math.round(margin.wanted * scale);
  if (low >= 0)
    return low < wanted
      ? m.toSpareWanted({ span: span(low, high), unit, wanted })
      : m.toSpare({ span: span(low, high), unit });
  if (high <= 0) return m.short({ span: span(-high, -low), unit });
  return m.shortToToSpare({ low: -low, unit, high });
}

/**
 * What to say of a part that failed where the guide names no cause for it: what of the use speaks against the material all
 * the same, what is not known, or that nothing does.
 */
export function withoutCauseWords({ fit }: Pick<NonNullable<FitReport['failedPart']>, 'fit'>): string {
  const labelsOf = (verdict: FitVerdict) =>
    listed(fit.judgements.filter((one) => one.verdict === verdict).map(({ label }) => told(label)));
  const against = labelsOf('does-not-suit');
  const limits = labelsOf('suits-with-limits');
  const unknown = labelsOf('not-known');
  const said = [
    ...(against === '' ? [] : [m.thisSpeaksAgainstTheMaterial({ against })]),
    ...(limits === '' ? [] : [m.theMaterialTakesThisWithLimits({ limits })]),
    ...(unknown === '' ? [] : [m.notKnownWhetherTheMaterialTakes({ unknown })]),
  ];
  if (said.length > 0) return sentences([...said, m.theReasonsStandBelow()]);
  return m.whatYouHaveSaidOfThe();
}

function gradeSteps(steps: number): string {
  if (steps === 0) return m.justMet();
  const count = m.grades({ steps: Math.abs(steps) });
  return steps > 0 ? m.toSpareWithCount({ count }) : m.shortWithCount({ count });
}

function span(low: number, high: number): string {
  return low === high ? `${low}` : m.to({ low, high });
}

function round1(value: number): number {
  return Math.round(value * 10) / 10;
}
