import type { MELT_ZONES } from '../../src-core/contract/melt-zones.ts';

type MeltZone = (typeof MELT_ZONES)[number];

/** Melt zones of hot ends as people tell them apart. */
export const MELT_ZONE_WORDS: Readonly<Record<MeltZone, string>> = {
  short: 'Short melt zone (most desktop hot ends)',
  long: 'Long melt zone',
  'extra-long': 'Extra long or split flow',
};
