import type { Knowledge } from '../knowledge/knowledge.ts';

/** The guide's mechanism of water that boils in the nozzle. */
export const STEAM_MECHANISM = 'steam-in-melt';

/** Causes that let steam into the melt: what the guide says drives that mechanism. */
export function steamCauses(knowledge: Knowledge): ReadonlySet<string> {
  return new Set(
    [...knowledge.causes.values()]
      .filter(({ drives }) => drives.some(({ to }) => to === STEAM_MECHANISM))
      .map(({ id }) => id),
  );
}
