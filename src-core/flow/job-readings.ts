import { CONDITION, type ReliedOnCondition } from '../contract/relied-on-conditions.ts';
import type { JobLimits } from '../knowledge/job-limits-schema.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { MeltZone } from '../knowledge/melting-schema.ts';
import { filamentAreaMm2 } from './bead.ts';
import type { JobFigures, JobPlace } from './job-figures.ts';
import { flowTexts } from '../words/en/flow.ts';
import { celsius, decimalsOf, type Message, type Words } from '../words/message.ts';
import { bridgingRemark, peakFlowRemark } from './flow-remarks.ts';

const { m } = flowTexts;

/** The machine and material that a job is to run on. */
export interface JobMachine {
  readonly nozzleMm: number | null;
  readonly polymer: string | null;
  readonly meltZone: MeltZone | null;
  readonly filamentDiameterMm: number;
  /** Filler by weight, 0 to 80; null where not known. */
  readonly fillerPercent: number | null;
}

/** A condition or an observation that follows from a job file, with its reason and its place in the file. */
export interface JobReading {
  readonly kind: 'condition' | 'finding';
  /** Id of the condition or observation in the guide. */
  readonly id: string;
  /** In the condition's or the measurement's unit; "present" or "absent" of what is there or not. */
  readonly value: number | string;
  readonly because: Message;
}

/** Something in the job that a lead would want to know, whether or not the guide asks for it. */
export interface JobRemark {
  readonly text: Words;
  readonly at: JobPlace | null;
}

/** Conditions and measured findings of the guide that a job file answers. */
export function readingsOf(
  figures: JobFigures,
  machine: JobMachine,
  { shortLayerS }: JobLimits,
): readonly JobReading[] {
  const readings: JobReading[] = [];
  const condition = (id: ReliedOnCondition, value: number | null, because: Message) => {
    if (value !== null && Number.isFinite(value)) readings.push({ kind: 'condition', id, value, because });
  };
  const { peakFlow, nozzle, layerHeight, shortestLayer } = figures;
  if (peakFlow) {
    const flow = round(peakFlow.mm3PerS, 1);
    condition(
      CONDITION.peakFlow,
      flow,
      at(peakFlow.at, m.peakFlow({ flow, usual: round(figures.p95FlowMm3PerS, 1) })),
    );
  }
  if (nozzle) {
    const { usualC, lowestC, highestC } = nozzle;
    const temperature = celsius(usualC, decimalsOf(usualC));
    condition(
      CONDITION.nozzleTemperature,
      usualC,
      lowestC === highestC
        ? m.printsAt({ temperature })
        : m.printsAtBetween({
            temperature,
            lowest: celsius(lowestC, decimalsOf(lowestC)),
            highest: celsius(highestC, decimalsOf(highestC)),
          }),
    );
  }
  const { plateC, chamberC } = figures;
  if (plateC !== null)
    condition(
      CONDITION.plateTemperature,
      plateC,
      m.plateSet({ temperature: celsius(plateC, decimalsOf(plateC)) }),
    );
  if (chamberC !== null)
    condition(
      CONDITION.chamberTemperature,
      chamberC,
      m.chamberSet({ temperature: celsius(chamberC, decimalsOf(chamberC)) }),
    );
  if (figures.layerCount > 3) {
    const fan = Math.round(100 * figures.fanShare);
    condition(CONDITION.partFan, fan, m.fanOnAverage({ percent: fan }));
  }
  // A short layer somewhere does not say that the bad place is there; where even the shortest has time, every place has.
  if (shortestLayer && shortestLayer.seconds >= shortLayerS.value) {
    readings.push({
      kind: 'finding',
      id: 'layer-time',
      value: round(shortestLayer.seconds, 1),
      because: layerTime(shortestLayer.at, round(shortestLayer.seconds, 1)),
    });
  }
  if (layerHeight && machine.nozzleMm !== null) {
    const share = Math.round((100 * layerHeight.usualMm) / machine.nozzleMm);
    readings.push({
      kind: 'finding',
      id: 'layer-height-share',
      value: share,
      because: m.layerHeightShare({
        layerMm: layerHeight.usualMm,
        nozzleMm: machine.nozzleMm,
        percent: share,
      }),
    });
  }
  return readings;
}

/** What stands out in a job on this machine, most important first. */
export function remarksOn(
  figures: JobFigures,
  machine: JobMachine,
  { melting, jobLimits }: Pick<Knowledge, 'melting' | 'jobLimits'>,
): readonly JobRemark[] {
  const shortSeconds = jobLimits.shortLayerS.value;
  const percent = Math.round(100 * jobLimits.highestShareOfBore.value);
  const highestLayerMm = jobLimits.highestShareOfBore.value * (machine.nozzleMm ?? Infinity);
  const { peakFlow, shortestLayer, layerHeight, retractions, firstLayer } = figures;
  const remarks: JobRemark[] = [];
  if (peakFlow && machine.meltZone)
    remarks.push({
      text: peakFlowRemark(peakFlow.mm3PerS, machine.meltZone, machine, melting),
      at: peakFlow.at,
    });
  const jam = bridgingRemark(machine, melting);
  if (jam !== null) remarks.push({ text: jam, at: null });
  if (shortestLayer && shortestLayer.seconds < shortSeconds)
    remarks.push({
      text: m.layerTimeShort({ seconds: round(shortestLayer.seconds, 1), shortSeconds }),
      at: shortestLayer.at,
    });
  if (layerHeight && machine.nozzleMm !== null && layerHeight.largestMm > highestLayerMm)
    remarks.push({
      text: m.stepHigh({ stepMm: round(layerHeight.largestMm, 2), percent, nozzleMm: machine.nozzleMm }),
      at: layerHeight.largestAt,
    });
  if (retractions.perMetreOfFilament > jobLimits.retractionsPerMetre.value)
    remarks.push({
      text: m.retractions({
        count: retractions.count,
        perMetre: Math.round(retractions.perMetreOfFilament),
      }),
      at: null,
    });
  if (firstLayer && firstLayer.heightMm > highestLayerMm)
    remarks.push({
      text: m.firstLayerHigh({ heightMm: round(firstLayer.heightMm, 2), percent }),
      at: { line: figures.layers[0]?.line ?? 1, layer: 1 },
    });
  for (const { seconds, at } of figures.pauses.slice(0, 5))
    remarks.push({
      text: seconds === null ? m.stopsForOperator() : m.waits({ seconds: Math.round(seconds) }),
      at,
    });
  for (const note of figures.notes) remarks.push({ text: note, at: null });
  return remarks;
}

/** Mass of the job's filament, gram; density in kg/m³. */
export function jobGrams(
  figures: Pick<JobFigures, 'filamentMm'>,
  filamentDiameterMm: number,
  densityKgPerM3: number,
): number {
  return (figures.filamentMm * filamentAreaMm2(filamentDiameterMm) * densityKgPerM3) / 1e6;
}

function at({ line, layer }: JobPlace, rest: Message): Message {
  return layer > 0 ? m.inLayer({ layer, line, rest }) : m.inLine({ line, rest });
}

function layerTime({ line, layer }: JobPlace, seconds: number): Message {
  return layer > 0 ? m.layerTimeEnough({ layer, line, seconds }) : m.layerTimeEnoughAtLine({ line, seconds });
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
