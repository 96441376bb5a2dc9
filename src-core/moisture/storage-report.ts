import { cautionsOf } from '../knowledge/cautions.ts';
import type { RoomClimate, StorageReport } from '../contract/spool-life.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { DAYS_PER_MONTH, desiccantUnits, GRAM_PER_UNIT } from './dry-pack.ts';
import { leakThroughWallGPerDay, sealedOutlook } from './sealed-storage.ts';
import { roomAir } from './spool-climate.ts';
import { lifeOfSpool, waterOfMake, type LoggedSpoolEvent, type SpoolMake } from './spool-life.ts';
import { waterAfter } from './water-history.ts';

/** A bag or tub as somebody has it. */
interface StorageQuestion {
  readonly barrier: string;
  readonly areaM2: number;
  readonly airLitre: number;
  readonly months: number;
  /** Silica gel put in, gram, freshly regenerated. */
  readonly desiccantG: number;
}

/** Humidity that sealed filament is to stay below. Common practice. */
const HIGHEST_HUMIDITY = 0.2;
const DESICCANT = 'silica-gel';

/**
 * How much desiccant a bag or tub takes, and how long what is in it lasts for this spool. Throws a RangeError for a barrier
 * that the guide does not know, and where there is no water data of the polymer.
 */
export function computeStorage(
  knowledge: Knowledge,
  make: SpoolMake,
  log: readonly LoggedSpoolEvent[],
  climate: RoomClimate,
  question: StorageQuestion,
  nowMs: number,
): StorageReport {
  const barrier = knowledge.barriers.get(question.barrier);
  if (!barrier)
    throw new RangeError(
      `this guide knows no wall "${question.barrier}"; it knows ${[...knowledge.barriers.keys()].join(', ')}`,
    );
  const water = waterOfMake(knowledge, make);
  if (!water) throw new RangeError('this guide has no figures of water in this polymer');
  const room = roomAir(climate)(nowMs);
  const known = lifeOfSpool(knowledge, make, log, climate, nowMs);
  const desiccant = knowledge.desiccants.get(DESICCANT) ?? null;
  const leakGPerDay = leakThroughWallGPerDay(barrier.gPerM2Day.likely, question.areaM2, room);
  const outlook = sealedOutlook({
    airLitre: question.airLitre,
    closedWith: room,
    filamentKg: make.filamentGrams / 1000,
    water,
    filamentMassFraction: known ? waterAfter(known.life).mean : 0,
    desiccant,
    desiccantG: question.desiccantG,
    desiccantHoldsG: 0,
    leakGPerDay,
    roomHumidity: room.relativeHumidity,
    highestHumidity: HIGHEST_HUMIDITY,
  });
  const units = Math.ceil(
    desiccantUnits({
      months: question.months,
      gPerM2Day: leakGPerDay / question.areaM2,
      areaM2: question.areaM2,
      gramPerUnit: GRAM_PER_UNIT.atTwenty,
    }),
  );
  const perHundred =
    desiccant?.holds.find(({ atPercentRh }) => atPercentRh === 100 * HIGHEST_HUMIDITY)?.gPer100g ?? 12;
  return {
    units,
    silicaGrams: Math.ceil((units * GRAM_PER_UNIT.atTwenty * 100) / perHundred),
    percentRh: 100 * outlook.relativeHumidity,
    monthsUntilDamp: outlook.monthsUntilDamp,
    leakGramsPerMonth: leakGPerDay * DAYS_PER_MONTH,
    regenerate: desiccant?.regenerate ?? '',
    cautions: cautionsOf(knowledge, outlook.cautions),
  };
}
