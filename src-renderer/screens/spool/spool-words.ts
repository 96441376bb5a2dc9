import type { DryingReport, SpoolReport } from '../../../src-core/contract/spool-life.ts';

/** Percent of mass with two figures that count: "0.23 %", "4.1 %". */
export function contentWords(percent: number): string {
  if (percent <= 0.005) return 'below 0.01 %';
  return `${Number(percent.toPrecision(2))} %`;
}

/** "0.23 % (0.1 to 0.4 %)". */
export function bandWords({ low, likely, high }: { low: number; likely: number; high: number }): string {
  return `${contentWords(likely)} (${contentWords(low)} to ${contentWords(high)})`;
}

/** Hours as people plan them: "6 h", "1 d 6 h". */
export function hoursWords(hours: number): string {
  if (hours < 1) return `${Math.max(1, Math.round(hours * 60))} min`;
  const whole = Math.round(hours);
  if (whole < 48) return `${whole} h`;
  return whole % 24 === 0 ? `${whole / 24} d` : `${Math.floor(whole / 24)} d ${whole % 24} h`;
}

const LONGEST = '72 h';

/** "6 h (4 to 9 h)" for the wraps; an end nobody waits for reads "more than 72 h". */
export function wrapsWords(hours: DryingReport['innerHours']): string {
  if (!hours) return '–';
  const end = (value: number | null) => (value === null ? `more than ${LONGEST}` : hoursWords(value));
  return `${end(hours.likely)} (${end(hours.low)} to ${end(hours.high)})`;
}

/** What to make of the water in the spool, in one sentence. */
export function verdictSentence({ water, flowMm3PerS }: SpoolReport): string {
  if (!water) return '';
  const flow = `${Number(flowMm3PerS.toPrecision(2))} mm³/s`;
  const chance = Math.round(100 * water.chanceOverLimit);
  switch (water.verdict) {
    case 'dry':
      return `Dry enough for a print at ${flow}: ${chance} % chance of moisture defects.`;
    case 'near-limit':
      return `Near the limit for a print at ${flow}: ${chance} % chance of moisture defects.`;
    case 'over-limit':
      return `Probably too wet for a print at ${flow}: ${chance} % chance of moisture defects.`;
    default:
      return `Too wet for a print at ${flow}: ${chance} % chance of moisture defects. Dry it first.`;
  }
}

/** What drying takes, in one sentence. */
export function dryingSentence(drying: DryingReport): string {
  const target = contentWords(drying.targetPercent);
  switch (drying.kind) {
    case 'dry-already':
      return `By where it has been it holds less than ${target} already.`;
    case 'cannot':
      return drying.because === 'air-too-damp'
        ? `It cannot get down to ${target} here: air of the room, heated, still leaves ${contentWords(drying.equilibriumPercent.likely)} in it. A dryer that dries its air gets further, and so does a hotter one where the filament bears it.`
        : `It does not get down to ${target} within ${LONGEST} at this temperature: water leaves it too slowly. More heat, where the filament bears it, is what helps.`;
    case 'plan':
      return `To get below ${target} from warm: outermost wraps ${wrapsWords(drying.outerHours)}, innermost ${wrapsWords(drying.innerHours)}. Warming through takes about ${hoursWords(drying.warmUpHours)} more.`;
  }
}

/** What a spool's page says first. */
export const LINE_WORDS: Readonly<Record<SpoolReport['standing'], string>> = {
  fit: 'Fit to print now',
  'near-limit': 'Near its limit',
  'not-known': 'Not known yet',
  'dry-first': 'Dry it first',
  'do-not-use': 'Not to be used, as it does not get dry here',
};

/** What a label says of drying: for years the temperature, for its day the time. */
export function labelRecipe({ recipe, drying }: Pick<SpoolReport, 'recipe' | 'drying'>, day: string): string {
  return drying?.kind === 'dry-already'
    ? `Dry at ${recipe.temperature}. Was dry enough on ${day}.`
    : `Dry at ${recipe.temperature} for ${recipe.hours} (${day})`;
}

/** "70 °C for 8 to 20 h, worked out for this spool": the one recipe of label, planner and remedy. */
export function recipeWords({ temperature, hours }: SpoolReport['recipe']): string {
  return `${temperature} for ${hours}`;
}

/** When a spool put into the dryer now is dry, most likely: warming through and the slowest wraps; null without a plan. */
export function readyAt(drying: DryingReport | null, now: Date): string | null {
  if (drying?.kind !== 'plan') return null;
  const wraps = [drying.innerHours?.likely, drying.outerHours?.likely].map((hours) => hours ?? 0);
  const hours = Math.max(...wraps) + drying.warmUpHours;
  return new Date(now.getTime() + hours * 3_600_000).toISOString();
}
