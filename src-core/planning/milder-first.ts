import type { Remedy, Scenario } from './repair-problem.ts';

/** A milder remedy with less than this share of the stronger one's chance is no longer worth its time first. Our own. */
const LEAST_SHARE = 0.2;

/**
 * The remedies with only those milder ones before them that are worth trying first: greasing comes before a new nut, but not once
 * the nut was found worn and the grease would hardly cure anything.
 */
export function milderWorthTrying(
  remedies: readonly Remedy[],
  scenarios: readonly Scenario[],
): readonly Remedy[] {
  const chances = new Map<string, number>();
  const byId = new Map(remedies.map((remedy) => [remedy.id, remedy]));
  const chanceOf = (id: string) => {
    const known = chances.get(id);
    if (known !== undefined) return known;
    const remedy = byId.get(id);
    const chance = remedy ? chanceToEnd(remedy, scenarios) : 0;
    chances.set(id, chance);
    return chance;
  };
  return remedies.map((remedy) => {
    if (!remedy.after || remedy.after.length === 0) return remedy;
    const least = LEAST_SHARE * chanceOf(remedy.id);
    return { ...remedy, after: remedy.after.filter((id) => chanceOf(id) >= least) };
  });
}

/** Probability (0-1) that a remedy by itself ends whichever scenario holds. */
function chanceToEnd({ removes }: Remedy, scenarios: readonly Scenario[]): number {
  const goes = new Map(removes.map(({ cause, probability }) => [cause, probability]));
  return scenarios.reduce(
    (sum, { causes, probability }) =>
      sum + causes.reduce((product, cause) => product * (goes.get(cause) ?? 0), probability),
    0,
  );
}
