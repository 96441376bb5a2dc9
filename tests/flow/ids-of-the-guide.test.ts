import { inEnglish } from '../../src-core/words/in-english.ts';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { JobFigures } from '../../src-core/flow/job-figures.ts';
import { readingsOf } from '../../src-core/flow/job-readings.ts';
import { saidInFile } from '../../src-core/flow/said-in-file.ts';
import { reportOnJob } from '../../src-core/flow/job-report.ts';
import type { TemperatureFigures } from '../../src-core/flow/temperature-figures.ts';
import { findingsOf } from '../../src-core/flow/temperature-findings.ts';
import { faultOfFinding } from '../../src-core/session/finding-level.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

/** A job that answers everything a job can answer. */
const JOB: JobFigures = {
  lines: 9000,
  bytes: 200_000,
  seconds: 7200,
  filamentMm: 9000,
  volumeMm3: 21_648,
  travelMm: 30_000,
  peakFlow: { mm3PerS: 18, at: { line: 800, layer: 4 } },
  p95FlowMm3PerS: 12,
  layers: [],
  layerCount: 120,
  firstLayer: { heightMm: 0.3, speedMmPerS: 20 },
  layerHeight: { usualMm: 0.2, largestMm: 0.35, largestAt: { line: 4000, layer: 60 } },
  shortestLayer: { seconds: 22, at: { line: 8000, layer: 110 } },
  retractions: {
    count: 2500,
    byFirmware: 0,
    usualLengthMm: 0.8,
    usualSpeedMmPerS: 35,
    perMetreOfFilament: 278,
  },
  nozzle: { usualC: 245, lowestC: 240, highestC: 250 },
  plateC: 100,
  chamberC: 50,
  fanShare: 0.3,
  pauses: [],
  tools: [0],
  said: { nozzleMm: 0.6, filamentDiameterMm: 2.85, material: 'PLA', profile: null, seconds: 7000 },
  notes: [],
};
const MACHINE = {
  nozzleMm: 0.4,
  polymer: 'abs',
  meltZone: 'short',
  filamentDiameterMm: 1.75,
  fillerPercent: 30,
} as const;

/** A log in which everything is wrong that a log can show. */
const FAULTY: TemperatureFigures = {
  readings: 900,
  seconds: 900,
  held: {
    seconds: 600,
    meanErrorC: -4,
    swingC: 6,
    periodSeconds: 40,
    droopC: 9,
    droopAtSeconds: 300,
    driftCPerHour: -8,
  },
  heating: { fromC: 25, toC: 150, seconds: 300, targetC: 215, overshootC: 12, isStuck: true },
  gaps: { count: 1, longestSeconds: 20 },
  jumps: 3,
  impossible: 2,
  firstFaultAtSeconds: 120,
  noiseC: 0.4,
  usualStepSeconds: 1,
};

/** The ids that a file of src-core/flow writes down, so that none can be added without being tried here. */
function idsWritten(file: string, pattern: RegExp): string[] {
  const source = readFileSync(path.join(import.meta.dirname, '..', '..', 'src-core', 'flow', file), 'utf8');
  return [...new Set([...source.matchAll(pattern)].map((match) => match[1] ?? ''))].sort();
}

describe('what files answer', () => {
  const knowledge = shippedKnowledge();

  it('every condition and finding of a job is in the guide, and its value can be taken', () => {
    const readings = [
      ...saidInFile(knowledge, JOB.said, MACHINE).readings,
      ...readingsOf(JOB, MACHINE, knowledge.jobLimits),
    ];
    const ids = readings.map(({ id }) => id).sort();
    // Conditions are typed from one place; what is still written by hand must be among those tried here.
    expect(ids).toHaveLength(9);
    expect(ids).toEqual(
      expect.arrayContaining(
        ['job-readings.ts', 'said-in-file.ts'].flatMap((file) =>
          idsWritten(file, /(?:condition\(\s*|id: )'([a-z-]+)'/g),
        ),
      ),
    );
    for (const { kind, id } of readings)
      expect((kind === 'condition' ? knowledge.conditions : knowledge.observations).has(id), id).toBe(true);
    const report = reportOnJob(knowledge, JOB, MACHINE);
    expect(report.readings.map(({ id }) => id).sort()).toEqual(ids);
    expect(report.remarks.filter(({ text }) => inEnglish(text).includes('does not take it'))).toEqual([]);
  });

  it('every finding of a temperature log is in the guide, with this grade', () => {
    const calm: TemperatureFigures = {
      ...FAULTY,
      held: {
        seconds: 600,
        meanErrorC: 0,
        swingC: 3,
        periodSeconds: null,
        droopC: 1,
        droopAtSeconds: 9,
        driftCPerHour: 0,
      },
      heating: { fromC: 22, toC: 200, seconds: 90, targetC: 215, overshootC: 1, isStuck: false },
      jumps: 0,
      impossible: 0,
      firstFaultAtSeconds: null,
    };
    const findings = [...findingsOf(FAULTY), ...findingsOf(calm)];
    const ids = [...new Set(findings.map(({ observation }) => observation))].sort();
    expect(ids).toEqual(idsWritten('temperature-findings.ts', /add\(\s*'([a-z-]+)'/g));
    for (const { observation, value } of findings) {
      expect(knowledge.observations.has(observation), observation).toBe(true);
      expect(faultOfFinding(knowledge, observation, value), `${observation}: ${value}`).toBeNull();
    }
  });
});
