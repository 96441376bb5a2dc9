import { inEnglish } from '../../src-core/words/in-english.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { temperatureFigures } from '../../src-core/flow/temperature-figures.ts';
import { findingsOf } from '../../src-core/flow/temperature-findings.ts';
import { readTemperatureLog, TemperatureLogError } from '../../src-core/flow/temperature-log.ts';
import { reportOnTemperatures } from '../../src-core/flow/index.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

/** A nozzle that heats at 2 K/s and then swings as a sine of this amplitude and period about 1 K below 215 °C. */
function log(amplitudeC: number, periodSeconds: number, seconds = 900) {
  const target = 215;
  return Array.from({ length: seconds }, (_, s) => {
    const warming = 25 + 2 * s;
    const held = target - 1 + amplitudeC * Math.sin((2 * Math.PI * s) / periodSeconds);
    return { seconds: s, actualC: Math.min(warming, held), targetC: target };
  });
}

describe('figures of a temperature log', () => {
  it('finds amplitude and period of a swing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.5, max: 8, noNaN: true }),
        fc.integer({ min: 20, max: 120 }),
        (amplitude, period) => {
          const { held } = temperatureFigures(log(amplitude, period));
          // 5 and 95 % points of a sine lie at sin(0.45 π) = 0.988 of its amplitude.
          expect(held?.swingC).toBeGreaterThan(0.93 * amplitude);
          expect(held?.swingC).toBeLessThan(1.01 * amplitude);
          expect(held?.periodSeconds).toBeGreaterThan(0.9 * period);
          expect(held?.periodSeconds).toBeLessThan(1.1 * period);
          expect(held?.droopC).toBeCloseTo(1 + amplitude, 0);
        },
      ),
      { numRuns: 100, seed: 81 },
    );
  });

  it('finds heating rate, overshoot, drift, jumps and what cannot be', () => {
    const steady = log(0.1, 40);
    const figures = temperatureFigures(steady);
    // From 25 to nine tenths of 215 °C at 2 K/s.
    expect(figures.heating).toMatchObject({ fromC: 25, isStuck: false });
    expect(figures.heating?.seconds).toBeCloseTo((0.9 * 215 - 25) / 2, -1);
    expect(figures.heating?.overshootC).toBe(0);
    expect(figures.gaps).toEqual({ count: 0, longestSeconds: 0 });
    expect(figures).toMatchObject({ jumps: 0, impossible: 0, firstFaultAtSeconds: null });
    const drifting = steady.map((one) => ({
      ...one,
      actualC: one.actualC - (one.seconds > 100 ? one.seconds / 300 : 0),
    }));
    expect(temperatureFigures(drifting).held?.driftCPerHour).toBeCloseTo(-12, 0);
    const broken = steady.map((one, i) =>
      i === 500 ? { ...one, actualC: 180 } : i === 700 ? { ...one, actualC: -14 } : one,
    );
    const faults = temperatureFigures(broken);
    expect(faults.jumps).toBeGreaterThan(0);
    expect(faults.impossible).toBe(1);
    expect(faults.firstFaultAtSeconds).toBe(500);
    const over = steady.map((one) => ({
      ...one,
      actualC: one.actualC + (one.seconds > 95 && one.seconds < 110 ? 12 : 0),
    }));
    expect(temperatureFigures(over).heating?.overshootC).toBeGreaterThan(8);
    expect(temperatureFigures(over.slice(0, 105)).heating?.overshootC).toBeNull();
    const holed = steady.filter((_, i) => i < 300 || i >= 400);
    expect(temperatureFigures(holed).gaps).toEqual({ count: 1, longestSeconds: 101 });
    // The held stretch lies on one side of the gap.
    expect(temperatureFigures(holed).held?.seconds).toBeLessThan(500);
    expect(() => temperatureFigures(steady.slice(0, 1))).toThrow('two readings');
  });

  it('answers observations of the shipped guide with their own levels', () => {
    const knowledge = shippedKnowledge();
    const swinging = findingsOf(temperatureFigures(log(6, 60)));
    for (const { observation, value } of swinging) {
      expect(knowledge.observations.has(observation), observation).toBe(true);
      expect(knowledge.levelsOf(observation)).toContain(value);
    }
    const found = Object.fromEntries(swinging.map(({ observation, value }) => [observation, value]));
    expect(found).toMatchObject({
      'temperature-wobbles': 'heavy',
      'temperature-swings-regularly': 'present',
      'reading-impossible': 'absent',
      'overshoots-on-heat-up': 'absent',
    });
    // Whether the head moved, and how fast this machine usually heats, the log does not say.
    expect(found).not.toHaveProperty('reading-jumps');
    expect(found).not.toHaveProperty('heats-too-slowly');
  });

  it('finds a heater that never gets there, and not one that is still on its way', () => {
    const weak = (minutes: number) =>
      Array.from({ length: minutes * 60 }, (_, s) => ({
        seconds: s,
        actualC: 25 + 140 * (1 - Math.exp(-s / 150)),
        targetC: 215,
      }));
    const slow = (readings: ReturnType<typeof weak>) =>
      findingsOf(temperatureFigures(readings)).find(({ observation }) => observation === 'heats-too-slowly');
    expect(slow(weak(30))?.value).toBe('present');
    expect(slow(weak(5))).toBeUndefined();
  });

  it("calls steady only what was watched for the guide's five minutes", () => {
    const wobbles = (seconds: number) =>
      findingsOf(temperatureFigures(log(0.3, 40, seconds))).find(
        ({ observation }) => observation === 'temperature-wobbles',
      )?.value;
    expect(wobbles(250)).toBeUndefined();
    expect(wobbles(900)).toBe('none');
  });
});

describe('reading a temperature log', () => {
  it('takes firmware reports with a clock, past midnight, and keeps to one heater', () => {
    const { readings, hasTimes } = readTemperatureLog(
      'start\n23:59:58 ok T:210.3 /215.0 B:60.1 /60.0 @:64\n23:59:59 T:211 /215 B:60 /60\n00:00:02 T0:212.5 /215.0 T1:25 /0\nT:nonsense\n',
      'T',
    );
    expect(hasTimes).toBe(true);
    expect(readings).toEqual([
      { seconds: 0, actualC: 210.3, targetC: 215 },
      { seconds: 1, actualC: 211, targetC: 215 },
      { seconds: 4, actualC: 212.5, targetC: 215 },
    ]);
    expect(
      readTemperatureLog('T:1 /2 B:60.1 /60.0\nT:1 /2 B:59.9 /60.0', 'B').readings.map(
        ({ actualC }) => actualC,
      ),
    ).toEqual([60.1, 59.9]);
  });

  it('takes CSV by its header and counts what it skips', () => {
    const { readings, skipped } = readTemperatureLog(
      'Time (s);Actual;Target\n0;20;215\n2;oops;215\n4;28;215\n',
      'T',
    );
    expect(readings).toEqual([
      { seconds: 0, actualC: 20, targetC: 215 },
      { seconds: 4, actualC: 28, targetC: 215 },
    ]);
    expect(skipped).toBe(1);
    expect(readTemperatureLog('s;actual;target\n0,5;240,25;240,0\n2,5;241,75;240,0\n', 'T').readings).toEqual(
      [
        { seconds: 0, actualC: 240.25, targetC: 240 },
        { seconds: 2, actualC: 241.75, targetC: 240 },
      ],
    );
    const both = 's,nozzle temp,nozzle target,bed temp,bed target\n0,20,215,21,60\n2,24,215,22,60\n';
    expect(readTemperatureLog(both, 'B').readings.map(({ actualC }) => actualC)).toEqual([21, 22]);
    expect(readTemperatureLog(both, 'T').readings.map(({ targetC }) => targetC)).toEqual([215, 215]);
  });

  it('says what would be right', () => {
    expect(() => readTemperatureLog('hello\nworld', 'T')).toThrow(TemperatureLogError);
    expect(() => readTemperatureLog('hello\nworld', 'T')).toThrow(/lines like "T:210.3 \/215.0"/);
  });
});

describe('logs that were too much', () => {
  it('attack 13: a log of 200,000 lines is reported on like a short one', () => {
    const lines = Array.from({ length: 200_000 }, (_, s) => `${s},${214 + (s % 3)},215`);
    const timed = reportOnTemperatures(shippedKnowledge(), ['seconds,actual,target', ...lines].join('\n'));
    expect(timed.heaters[0]?.readings).toBe(200_000);
    const untimed = lines.map((line) => `T:${line.split(',')[1]}.0 /215.0`);
    const report = reportOnTemperatures(shippedKnowledge(), untimed.join('\n'));
    expect(report.heaters[0]?.remarks.map(inEnglish).join()).toContain('From 214.0 °C to 216.0 °C');
  }, 120_000);

  it('attack, low: a number of 400 digits is a line that could not be read, not a fault of the program', () => {
    const digits = '9'.repeat(400);
    const text = `T:${digits} /215.0\nT:210.0 /215.0\nT:211.0 /215.0`;
    const read = readTemperatureLog(text, 'T');
    expect([read.readings.length, read.skipped]).toEqual([2, 1]);
    expect(() => readTemperatureLog(`seconds,actual,target\n1,${digits},2`, 'T')).toThrow(
      TemperatureLogError,
    );
    expect(reportOnTemperatures(shippedKnowledge(), text).heaters).toHaveLength(1);
  });

  it('B16: cells in quotes, also with the separator in them', () => {
    const text = '"time","note, by hand","actual","target"\n"0","warm ""now""","210.5","215"\n1,x,211,215';
    expect(readTemperatureLog(text, 'T').readings).toMatchObject([
      { actualC: 210.5, targetC: 215 },
      { actualC: 211, targetC: 215 },
    ]);
    const semicolons = '"time";"actual";"target"\n"0";"210,5";"215"';
    expect(readTemperatureLog(semicolons, 'T').readings[0]?.actualC).toBe(210.5);
  });
});
