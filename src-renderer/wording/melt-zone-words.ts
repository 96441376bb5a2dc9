import type { MELT_ZONES } from '../../src-core/contract/melt-zones.ts';
import { m } from '../messages/en/melt-zone-words.ts';

type MeltZone = (typeof MELT_ZONES)[number];

/** Melt zones of hot ends as people tell them apart. */
export const MELT_ZONE_WORDS: Readonly<Record<MeltZone, string>> = {
  short: m.shortMeltZoneMostDesktopHot(),
  long: m.longMeltZone(),
  'extra-long': m.extraLongOrSplitFlow(),
};
