import type { HeaterReport, TemperatureReport } from '../contract/job-report.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { largest, smallest } from './extremes.ts';
import { fileFinding } from './file-finding.ts';
import { isPossible, temperatureFigures } from './temperature-figures.ts';
import { findingsOf, type LogFinding } from './temperature-findings.ts';
import {
  readTemperatureLog,
  TemperatureLogError,
  type Heater,
  type TemperatureReading,
} from './temperature-log.ts';
import { flowTexts } from '../words/en/flow.ts';
import { celsius, type Message } from '../words/message.ts';
import { remarksOnHeater } from './temperature-remarks.ts';

const { m } = flowTexts;

const PLOTTED_READINGS = 400;

/**
 * What a temperature log shows: figures of nozzle and plate, and the findings of the guide that the nozzle's answer. Without
 * times only readings that cannot be are judged. Throws a `TemperatureLogError` where it holds neither heater.
 */
export function reportOnTemperatures(knowledge: Knowledge, text: string): TemperatureReport {
  const heaters: HeaterReport[] = [];
  const findings: LogFinding[] = [];
  let fault: TemperatureLogError | null = null;
  for (const heater of ['T', 'B'] as const) {
    try {
      const one = reportOnHeater(text, heater);
      heaters.push(one.report);
      findings.push(...one.findings);
    } catch (error) {
      if (!(error instanceof TemperatureLogError)) throw error;
      fault ??= error;
    }
  }
  if (fault && heaters.length === 0) throw fault;
  return {
    heaters,
    findings: findings.flatMap(
      ({ observation, value, because }) => fileFinding(knowledge, observation, value, because) ?? [],
    ),
  };
}

function reportOnHeater(text: string, heater: Heater) {
  const { readings, hasTimes, skipped } = readTemperatureLog(text, heater);
  const isTimed = hasTimes && readings.length >= 2;
  const figures = isTimed ? temperatureFigures(readings) : null;
  const report: HeaterReport = {
    heater,
    readings: readings.length,
    seconds: figures?.seconds ?? null,
    remarks: figures ? [...remarksOnHeater(figures)] : [untimedWords(readings)],
    points: plotted(readings),
  };
  if (skipped > 0) report.remarks.push(m.linesNotRead({ count: skipped }));
  // The guide's observations of temperature are of the nozzle.
  if (heater === 'B') return { report, findings: [] };
  return { report, findings: figures ? findingsOf(figures) : untimedFindings(readings) };
}

function untimedWords(readings: readonly TemperatureReading[]): Message {
  const actual = readings.map(({ actualC }) => actualC);
  return m.noTimes({ lowest: celsius(smallest(actual), 1), highest: celsius(largest(actual), 1) });
}

function untimedFindings(readings: readonly TemperatureReading[]): LogFinding[] {
  const impossible = readings.filter((one) => !isPossible(one)).length;
  if (impossible === 0) return [];
  const because = m.impossibleOfReadings({ count: impossible, readings: readings.length });
  return [{ observation: 'reading-impossible', value: 'present', because }];
}

/** Readings for a plot: of neighbours lumped together the one furthest from its target stays. */
function plotted(readings: readonly TemperatureReading[]): HeaterReport['points'] {
  const size = Math.ceil(readings.length / PLOTTED_READINGS);
  return Array.from({ length: Math.ceil(readings.length / size) }, (_, lump) =>
    readings
      .slice(lump * size, (lump + 1) * size)
      .reduce((most, one) => (offBy(one) > offBy(most) ? one : most)),
  );
}

function offBy({ actualC, targetC }: TemperatureReading): number {
  return Math.abs(actualC - targetC);
}
