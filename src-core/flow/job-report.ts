import type { JobReport } from '../contract/job-report.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { fileCondition, fileFinding } from './file-finding.ts';
import type { JobFigures, LayerFigures } from './job-figures.ts';
import {
  jobGrams,
  readingsOf,
  remarksOn,
  type JobMachine,
  type JobReading,
  type JobRemark,
} from './job-readings.ts';
import { saidInFile } from './said-in-file.ts';
import { flowTexts } from '../words/en/flow.ts';
import { meltCapacityMm3PerS } from './melt.ts';

const PLOTTED_LAYERS = 400;

/** Figures of a job with what they mean in this guide. What the guide lacks, or knows in another range only, is left out of
 * the readings and said among the remarks. */
export function reportOnJob(knowledge: Knowledge, figures: JobFigures, machine: JobMachine): JobReport {
  const density =
    machine.polymer === null ? undefined : knowledge.water.get(machine.polymer)?.densityKgPerM3.value;
  const said = saidInFile(knowledge, figures.said, machine);
  const given = [...said.readings, ...readingsOf(figures, machine, knowledge.jobLimits)].map((reading) => {
    const { kind, id, value, because } = reading;
    const put = kind === 'condition' ? fileCondition : fileFinding;
    return { reading, said: put(knowledge, id, value, because) };
  });
  return {
    lines: figures.lines,
    bytes: figures.bytes,
    seconds: figures.seconds,
    statedSeconds: figures.said.seconds,
    profile: figures.said.profile,
    filamentMm: figures.filamentMm,
    grams: density === undefined ? null : jobGrams(figures, machine.filamentDiameterMm, density),
    layerCount: figures.layerCount,
    travelMm: figures.travelMm,
    retractions: figures.retractions.count,
    readings: given.flatMap(({ said }) => said ?? []),
    remarks: [
      ...said.remarks,
      ...remarksOn(figures, machine, knowledge),
      ...given.filter(({ said }) => said === null).map(({ reading }) => leftOut(reading)),
    ],
    capacity:
      machine.meltZone === null
        ? null
        : meltCapacityMm3PerS(knowledge.melting, machine.meltZone, machine.polymer ?? 'pla'),
    layers: plotted(figures.layers),
  };
}

/** A value outside what the guide knows is said, and left out of the case. */
function leftOut({ because }: JobReading): JobRemark {
  return { text: [because, flowTexts.m.notInGuide()], at: null };
}

/** Neighbouring layers lumped together until few enough are left. */
function plotted(layers: readonly LayerFigures[]): JobReport['layers'] {
  const size = Math.ceil(layers.length / PLOTTED_LAYERS);
  return Array.from({ length: Math.ceil(layers.length / Math.max(1, size)) }, (_, lump) => {
    const group = layers.slice(lump * size, (lump + 1) * size);
    const seconds = group.reduce((sum, one) => sum + one.seconds, 0);
    const weighted = (pick: (one: LayerFigures) => number) =>
      seconds > 0 ? group.reduce((sum, one) => sum + one.seconds * pick(one), 0) / seconds : 0;
    const first = group[0];
    return {
      layer: lump * size + 1,
      zMm: first?.zMm ?? 0,
      seconds: seconds / Math.max(1, group.length),
      meanFlowMm3PerS: weighted((one) => one.meanFlowMm3PerS),
      peakFlowMm3PerS: Math.max(0, ...group.map((one) => one.peakFlowMm3PerS)),
      fanShare: weighted((one) => one.fanShare),
      nozzleC: first?.nozzleC ?? null,
    };
  });
}
