import type { DryingReport, SpoolReport } from '../../../src-core/contract/spool-life.ts';
import type { Words } from '../../../src-core/words/message.ts';
import { m } from '../../messages/en/spool-words.ts';

/** Percent of mass with two figures that count: "0.23 %", "4.1 %". */
export function contentWords(percent: number): string {
  if (percent <= 0.005) return m.below001();
  return `${Number(percent.toPrecision(2))} %`;
}

/** "0.23 % (0.1 to 0.4 %)". */
export function bandWords({ low, likely, high }: { low: number; likely: number; high: number }): string {
  return m.to({ content: contentWords(likely), content2: contentWords(low), content3: contentWords(high) });
}

/** Hours as people plan them: "6 h", "1 d 6 h". */
export function hoursWords(hours: number): string {
  if (hours < 1) return m.min({ rest: Math.max(1, Math.round(hours * 60)) });
  const whole = Math.round(hours);
  if (whole < 48) return m.h({ whole });
  return whole % 24 === 0
    ? m.d({ whole: whole / 24 })
    : m.dH({ whole: Math.floor(whole / 24), whole2: whole % 24 });
}

const LONGEST = m.n72H();

/** "6 h (4 to 9 h)" for the wraps; an end nobody waits for reads "more than 72 h". */
export function wrapsWords(hours: DryingReport['innerHours']): string {
  if (!hours) return '–';
  const end = (value: number | null) =>
    value === null ? m.moreThan({ longest: LONGEST }) : hoursWords(value);
  return m.toWithEndEnd2({ end: end(hours.likely), end2: end(hours.low), end3: end(hours.high) });
}

/** What to make of the water in the spool, in one sentence. */
export function verdictSentence({ water, flowMm3PerS }: SpoolReport): string {
  if (!water) return '';
  const flow = m.mm3S({ flowMm3PerS: Number(flowMm3PerS.toPrecision(2)) });
  const chance = Math.round(100 * water.chanceOverLimit);
  switch (water.verdict) {
    case 'dry':
      return m.dryEnoughForAPrintAt({ flow, chance });
    case 'near-limit':
      return m.nearTheLimitForAPrint({ flow, chance });
    case 'over-limit':
      return m.probablyTooWetForAPrint({ flow, chance });
    default:
      return m.tooWetForAPrintAt({ flow, chance });
  }
}

/** What drying takes, in one sentence. */
export function dryingSentence(drying: DryingReport): string {
  const target = contentWords(drying.targetPercent);
  switch (drying.kind) {
    case 'dry-already':
      return m.byWhereItHasBeenIt({ target });
    case 'cannot':
      return drying.because === 'air-too-damp'
        ? m.itCannotGetDownToHere({ target, content: contentWords(drying.equilibriumPercent.likely) })
        : m.itDoesNotGetDownTo({ target, longest: LONGEST });
    case 'plan':
      return m.toGetBelowFromWarmOutermost({
        target,
        wraps: wrapsWords(drying.outerHours),
        wraps2: wrapsWords(drying.innerHours),
        hours: hoursWords(drying.warmUpHours),
      });
  }
}

/** What a spool's page says first. */
export const LINE_WORDS: Readonly<Record<SpoolReport['standing'], string>> = {
  fit: m.fitToPrintNow(),
  'near-limit': m.nearItsLimit(),
  'not-known': m.notKnownYet(),
  'dry-first': m.dryItFirst(),
  'do-not-use': m.notToBeUsedAsIt(),
};

/** What a label says of drying: for years the temperature, for its day the time. */
export function labelRecipe(
  { recipe, drying }: Pick<SpoolReport, 'recipe' | 'drying'>,
  day: string,
  say: (words: Words) => string,
): string {
  return drying?.kind === 'dry-already'
    ? m.dryAtWasDryEnoughOn({ temperature: say(recipe.temperature), day })
    : m.dryAtFor({ temperature: say(recipe.temperature), hours: say(recipe.hours), day });
}

/** "70 °C for 8 to 20 h, worked out for this spool": the one recipe of label, planner and remedy. */
export function recipeWords(
  { temperature, hours }: SpoolReport['recipe'],
  say: (words: Words) => string,
): string {
  return m.for({ temperature: say(temperature), hours: say(hours) });
}

/** When a spool put into the dryer now is dry, most likely: warming through and the slowest wraps; null without a plan. */
export function readyAt(drying: DryingReport | null, now: Date): string | null {
  if (drying?.kind !== 'plan') return null;
  const wraps = [drying.innerHours?.likely, drying.outerHours?.likely].map((hours) => hours ?? 0);
  const hours = Math.max(...wraps) + drying.warmUpHours;
  return new Date(now.getTime() + hours * 3_600_000).toISOString();
}
