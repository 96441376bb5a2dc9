import { CONDITION } from '../contract/relied-on-conditions.ts';
import type { DryingReport, RoomClimate, SpoolReport } from '../contract/spool-life.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { dryingCurve, planDrying, type DryingJob } from './drying-plan.ts';
import { isothermPoints, type Range } from './material-water.ts';
import { roomAir } from './spool-climate.ts';
import {
  lifeOfSpool,
  waterOfMake,
  type KnownLife,
  type LoggedSpoolEvent,
  type SpoolMake,
} from './spool-life.ts';
import { verdictOn } from './spool-verdict.ts';
import { usualFlowMm3PerS } from '../flow/usual-flow.ts';
import { cautionsOf } from '../knowledge/cautions.ts';
import { printingLimitAt, steamFrom } from './steam.ts';
import { waterBand, waterCourse } from './water-band.ts';
import { spoolLogTexts } from '../words/en/spool-log.ts';

const { m } = spoolLogTexts;

/** What is asked of a spool: flow to print at, the dryer at hand, and what drying is to reach. */
export interface SpoolQuestion {
  readonly flowMm3PerS: number | null;
  readonly dryerTemperatureC: number | null;
  readonly isDryAir: boolean;
  readonly targetPercent: number | null;
}

export interface SpoolParts {
  readonly knowledge: Knowledge;
  readonly make: SpoolMake;
  /** Id of what it is wound on. */
  readonly body: string;
  readonly log: readonly LoggedSpoolEvent[];
  readonly climate: RoomClimate;
  readonly question: SpoolQuestion;
  readonly nowMs: number;
}

type Reckoned = Pick<SpoolReport, 'silence' | 'flowMm3PerS' | 'water' | 'drying'>;

const COURSE_POINTS = 80;
const GENTLE_C = 54;
const GENTLE_HOURS = 24;
const HOUR_MS = 3_600_000;
/** Dried air of a dry-air dryer. Common practice. */
const DRY_AIR_DEW_POINT_C = -40;
/** Melt zone of 20 mm of 1.75 mm bore, and melt at a tenth below the density of the solid: round assumptions. */
const MELT_ZONE_MM3 = 48;
const MELT_SHARE_OF_DENSITY = 0.9;
const USUAL_NOZZLE_C = 230;

/** Water in a spool, what it means for a print, and what drying takes. Says why where nothing can be worked out. */
export function computeSpool(parts: SpoolParts): Reckoned {
  const { knowledge, make, log, climate, question, nowMs } = parts;
  const flowMm3PerS = question.flowMm3PerS ?? usualFlowMm3PerS(knowledge.melting);
  if (!waterOfMake(knowledge, make))
    return {
      silence: m.noFigures(),
      flowMm3PerS,
      water: null,
      drying: null,
    };
  const known = lifeOfSpool(knowledge, make, log, climate, nowMs);
  if (!known) {
    return { silence: m.logFirst(), flowMm3PerS, water: null, drying: null };
  }
  return {
    silence: null,
    flowMm3PerS,
    water: waterOf(parts, known, flowMm3PerS),
    drying: dryingOf(parts, known, flowMm3PerS),
  };
}

function waterOf(
  { knowledge, make }: SpoolParts,
  { life, room, fromMs }: KnownLife,
  flowMm3PerS: number,
): NonNullable<SpoolReport['water']> {
  const band = waterBand(life, flowMm3PerS, room);
  const chanceOverLimit = Math.max(band.chanceOverLimit.outer, band.chanceOverLimit.inner);
  const verdict = verdictOn(chanceOverLimit);
  const nozzle = knowledge.materials.get(make.polymer)?.properties.nozzleTempC;
  const steam = steamFrom({
    massFraction: Math.max(band.outer.mean.likely, band.inner.mean.likely),
    nozzleTemperatureC:
      nozzle?.low !== undefined && nozzle.high !== undefined
        ? (nozzle.low + nozzle.high) / 2
        : USUAL_NOZZLE_C,
    meltDensityKgPerM3: life.water.densityKgPerM3 * MELT_SHARE_OF_DENSITY,
    meltZoneMm3: MELT_ZONE_MM3,
    flowMm3PerS,
  });
  return {
    outer: percent(band.outer.mean),
    inner: percent(band.inner.mean),
    limit: percent(band.limit),
    chanceOverLimit,
    verdict,
    verdictLabel:
      knowledge.conditions.get(CONDITION.spoolWater)?.values?.find(({ id }) => id === verdict)?.label ??
      verdict,
    course: waterCourse(life, COURSE_POINTS, room).map(({ hours, outer, inner }) => ({
      at: new Date(fromMs + hours * HOUR_MS).toISOString(),
      outer: percent(outer),
      inner: percent(inner),
    })),
    vapourPerMelt: steam.vapourPerMelt,
    voidFraction: steam.voidFraction,
    isotherm: isothermPoints(life.water).map(({ relativeHumidity, massFraction }) => ({
      percentRh: 100 * relativeHumidity,
      content: percent(massFraction),
    })),
  };
}

function dryingOf(
  { knowledge, body, climate, question, nowMs }: SpoolParts,
  { life }: KnownLife,
  flowMm3PerS: number,
): DryingReport {
  const target =
    question.targetPercent === null
      ? printingLimitAt(life.water, flowMm3PerS).low
      : question.targetPercent / 100;
  const spoolBodyHighestC = knowledge.spoolBodies.get(body)?.highestTempC.value ?? life.water.highestDryingC;
  const job: DryingJob = {
    ...life,
    dryer: {
      chamberTemperatureC:
        question.dryerTemperatureC ?? Math.min(life.water.highestDryingC, spoolBodyHighestC),
      air: question.isDryAir
        ? { kind: 'dry-air', dewPointC: DRY_AIR_DEW_POINT_C }
        : { kind: 'room-air', room: roomAir(climate)(nowMs) },
    },
    spoolBodyHighestC,
    targetMassFraction: target,
  };
  const plan = planDrying(job);
  return {
    kind: plan.kind,
    because: plan.kind === 'cannot' ? plan.because : null,
    temperatureC: plan.temperatureC,
    heldBackBy: plan.heldBackBy,
    targetPercent: 100 * target,
    equilibriumPercent: percent(plan.equilibrium),
    warmUpHours: plan.warmUpHours,
    outerHours: plan.kind === 'plan' ? plan.outerHours : null,
    innerHours: plan.kind === 'plan' ? plan.innerHours : null,
    mayStayDamp: plan.kind === 'plan' && plan.mayStayDamp,
    afterADay: afterADay(job),
    curve: dryingCurve(job).map(({ hours, outer, inner }) => ({
      hours,
      outer: percent(outer),
      inner: percent(inner),
    })),
    cautions: cautionsOf(knowledge, plan.cautions),
  };
}

/** A day at 54 °C (130 °F), the usual gentle drying (common practice). */
function afterADay(job: DryingJob): DryingReport['afterADay'] {
  if (job.water.highestDryingC < GENTLE_C || job.spoolBodyHighestC < GENTLE_C) return null;
  const gentle = { ...job, dryer: { ...job.dryer, chamberTemperatureC: GENTLE_C } };
  const point = dryingCurve(gentle).find(({ hours }) => hours >= GENTLE_HOURS);
  return point ? { outer: percent(point.outer), inner: percent(point.inner) } : null;
}

function percent({ low, likely, high }: Range): Range {
  return { low: 100 * low, likely: 100 * likely, high: 100 * high };
}
