import type { FileReading, JobReport, TemperatureReport } from '../contract/job-report.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { conditionValueLabel, observationLabel, valueLabel } from '../session/wording.ts';
import type { JobFigures, LayerFigures } from './job-figures.ts';
import { jobGrams, readingsOf, remarksOn, type JobMachine } from './job-readings.ts';
import { meltCapacityMm3PerS } from './melt.ts';
import { temperatureFigures } from './temperature-figures.ts';
import { findingsOf } from './temperature-findings.ts';
import { readTemperatureLog } from './temperature-log.ts';

const PLOTTED_LAYERS = 400;

/** Figures of a job with what they mean in this guide. Conditions and observations that the guide lacks are left out. */
export function reportOnJob(knowledge: Knowledge, figures: JobFigures, machine: JobMachine): JobReport {
  const density =
    machine.polymer === null ? undefined : knowledge.water.get(machine.polymer)?.densityKgPerM3.value;
  return {
    lines: figures.lines,
    bytes: figures.bytes,
    seconds: figures.seconds,
    filamentMm: figures.filamentMm,
    grams: density === undefined ? null : jobGrams(figures, machine.filamentDiameterMm, density),
    layerCount: figures.layerCount,
    travelMm: figures.travelMm,
    retractions: figures.retractions.count,
    readings: readingsOf(figures, machine).flatMap((reading): FileReading[] => {
      const { kind, id, value, because } = reading;
      if (kind === 'condition') {
        const condition = knowledge.conditions.get(id);
        const valueText = conditionValueLabel(knowledge, id, value);
        return condition ? [{ kind, id, label: condition.label, value, valueLabel: valueText, because }] : [];
      }
      return knowledge.observations.has(id) ? [findingOf(knowledge, id, value, because)] : [];
    }),
    remarks: [...remarksOn(figures, machine)],
    capacity:
      machine.meltZone === null ? null : meltCapacityMm3PerS(machine.meltZone, machine.polymer ?? 'pla'),
    layers: plotted(figures.layers),
  };
}

/** What a temperature log of the nozzle ("T") or plate ("B") shows. Throws a `TemperatureLogError` where it holds nothing. */
export function reportOnTemperatures(
  knowledge: Knowledge,
  text: string,
  heater: 'T' | 'B',
): TemperatureReport {
  const { readings, hasTimes, skipped } = readTemperatureLog(text, heater);
  const figures = temperatureFigures(readings);
  return {
    readings: figures.readings,
    seconds: figures.seconds,
    hasTimes,
    skipped,
    findings: findingsOf(figures, heater).flatMap(({ observation, value, because }) =>
      knowledge.observations.has(observation) ? [findingOf(knowledge, observation, value, because)] : [],
    ),
  };
}

function findingOf(knowledge: Knowledge, id: string, value: string | number, because: string): FileReading {
  return {
    kind: 'finding',
    id,
    label: observationLabel(knowledge, id),
    value,
    valueLabel: valueLabel(knowledge, id, value),
    because,
  };
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
