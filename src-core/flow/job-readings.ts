import { CONDITION, type ReliedOnCondition } from '../contract/relied-on-conditions.ts';
import type { JobLimits } from '../knowledge/job-limits-schema.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { MeltZone } from '../knowledge/melting-schema.ts';
import { filamentAreaMm2 } from './bead.ts';
import type { JobFigures, JobPlace } from './job-figures.ts';
import { bridgingRemark, peakFlowRemark } from './flow-remarks.ts';

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
  readonly because: string;
}

/** Something in the job that a lead would want to know, whether or not the guide asks for it. */
export interface JobRemark {
  readonly text: string;
  readonly at: JobPlace | null;
}

/** Conditions and measured findings of the guide that a job file answers. */
export function readingsOf(
  figures: JobFigures,
  machine: JobMachine,
  { shortLayerS }: JobLimits,
): readonly JobReading[] {
  const readings: JobReading[] = [];
  const condition = (id: ReliedOnCondition, value: number | null, because: string) => {
    if (value !== null && Number.isFinite(value)) readings.push({ kind: 'condition', id, value, because });
  };
  const { peakFlow, nozzle, layerHeight, shortestLayer } = figures;
  if (peakFlow) {
    const flow = round(peakFlow.mm3PerS, 1);
    condition(
      CONDITION.peakFlow,
      flow,
      `${placeWords(peakFlow.at)}: ${flow} mm³/s for half a second and more; 95 % of the time below ${round(figures.p95FlowMm3PerS, 1)} mm³/s.`,
    );
  }
  if (nozzle) {
    const spread = nozzle.lowestC === nozzle.highestC ? '' : ` (${nozzle.lowestC} to ${nozzle.highestC} °C)`;
    condition(CONDITION.nozzleTemperature, nozzle.usualC, `The job prints at ${nozzle.usualC} °C${spread}.`);
  }
  condition(CONDITION.plateTemperature, figures.plateC, `The job sets the plate to ${figures.plateC} °C.`);
  condition(
    CONDITION.chamberTemperature,
    figures.chamberC,
    `The job sets the chamber to ${figures.chamberC} °C.`,
  );
  if (figures.layerCount > 3) {
    const fan = Math.round(100 * figures.fanShare);
    condition(
      CONDITION.partFan,
      fan,
      `The job runs the part fan at ${fan} % on average after the third layer.`,
    );
  }
  // A short layer somewhere does not say that the bad place is there; where even the shortest has time, every place has.
  if (shortestLayer && shortestLayer.seconds >= shortLayerS.value) {
    readings.push({
      kind: 'finding',
      id: 'layer-time',
      value: round(shortestLayer.seconds, 1),
      because: `Even the shortest, ${lowerFirst(placeWords(shortestLayer.at))}, takes ${round(shortestLayer.seconds, 1)} s, worked out from the file without acceleration.`,
    });
  }
  if (layerHeight && machine.nozzleMm !== null) {
    const share = Math.round((100 * layerHeight.usualMm) / machine.nozzleMm);
    readings.push({
      kind: 'finding',
      id: 'layer-height-share',
      value: share,
      because: `Layers of ${layerHeight.usualMm} mm through ${machine.nozzleMm} mm are ${share} % of the bore.`,
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
  const shareWords = `${Math.round(100 * jobLimits.highestShareOfBore.value)} %`;
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
      text: `This layer takes ${round(shortestLayer.seconds, 1)} s; below ${shortSeconds} s most polymers stay soft. If the bad place is here, answer the time for one layer with it.`,
      at: shortestLayer.at,
    });
  if (layerHeight && layerHeight.largestMm > highestLayerMm)
    remarks.push({
      text: `A step of ${round(layerHeight.largestMm, 2)} mm is more than ${shareWords} of the ${machine.nozzleMm} mm bore.`,
      at: layerHeight.largestAt,
    });
  if (retractions.perMetreOfFilament > jobLimits.retractionsPerMetre.value)
    remarks.push({
      text: `${retractions.count} retractions, ${Math.round(retractions.perMetreOfFilament)} for each metre of filament: the same stretch passes the drive gear again and again.`,
      at: null,
    });
  if (firstLayer && firstLayer.heightMm > highestLayerMm)
    remarks.push({
      text: `The first layer is ${round(firstLayer.heightMm, 2)} mm high, more than ${shareWords} of the bore.`,
      at: { line: figures.layers[0]?.line ?? 1, layer: 1 },
    });
  for (const { seconds, at } of figures.pauses.slice(0, 5))
    remarks.push({
      text: seconds === null ? 'The job stops for the operator.' : `The job waits ${Math.round(seconds)} s.`,
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

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function placeWords({ line, layer }: JobPlace): string {
  return layer > 0 ? `Layer ${layer} (line ${line})` : `Line ${line}`;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
