import { inEnglish } from '../../src-core/words/in-english.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { filamentAreaMm2 } from '../../src-core/flow/bead.ts';
import { JobReader } from '../../src-core/flow/job-reader.ts';
import { JobFileError, type JobFigures } from '../../src-core/flow/job-figures.ts';

const AREA = filamentAreaMm2(1.75);

function read(text: string, cuts: readonly number[] = []): JobFigures {
  const bytes = new TextEncoder().encode(text);
  const reader = new JobReader({ filamentDiameterMm: 1.75 });
  let from = 0;
  for (const cut of [...cuts].sort((a, b) => a - b)) {
    const to = Math.min(bytes.length, Math.max(from, cut));
    reader.push(bytes.subarray(from, to));
    from = to;
  }
  reader.push(bytes.subarray(from));
  return reader.end();
}

/** All bytes before the star, exclusive-ored: the checksum of the RepRap dialect. */
function withChecksum(words: string): string {
  return `${words}*${[...new TextEncoder().encode(words)].reduce((sum, byte) => sum ^ byte, 0)}`;
}

/** Three layers of a 20 mm square, 0.2 mm apart, by hand: totals are in the tests. */
const SQUARE = [
  '; a comment of some program M104 S999',
  'M140 S60',
  'M104 S200',
  'M109 S215 ; wait',
  'G21',
  'G90',
  'M82',
  'G28',
  'G92 E0',
  'M107',
  ...[0.2, 0.4, 0.6].flatMap((z, layer) => [
    `G0 F6000 X0 Y0 Z${z + 0.4}`,
    `G0 X0 Y0 Z${z}`,
    layer === 1 ? 'M106 S128' : '(nothing)',
    `G1 F1800 E${layer * 2}`,
    `G1 X20 Y0 E${layer * 2 + 0.5} F1200`,
    `G1 X20 Y20 E${layer * 2 + 1}`,
    withChecksum(`N12 G1 X0 Y20 E${layer * 2 + 1.5} `),
    `g1x0y0e${layer * 2 + 2}`,
    `G1 E${layer * 2 + 1} F2400`,
  ]),
  'G4 P500',
  'G4 S30',
  'M600',
  'M104 S0',
  '',
].join('\r\n');

describe('reading a job file', () => {
  const square = read(SQUARE);

  it('adds up a job done by hand', () => {
    // Per layer four sides of 20 mm with 0.5 mm of filament each, and from the second a prime of 1 mm on the spot.
    expect(square.filamentMm).toBeCloseTo(6, 9);
    expect(square.volumeMm3).toBeCloseTo(6 * AREA, 9);
    expect(square.layerCount).toBe(3);
    // 20 mm at 20 mm/s is 1 s a side, so 0.5 mm of filament a second.
    expect(square.peakFlow?.mm3PerS).toBeCloseTo(0.5 * AREA, 9);
    expect(square.p95FlowMm3PerS).toBeCloseTo(0.5 * AREA, 1);
    // Retractions: 1 mm at 40 mm/s at the end of each layer.
    expect(square.retractions).toMatchObject({
      count: 3,
      usualLengthMm: 1,
      usualSpeedMmPerS: 40,
      byFirmware: 0,
    });
    expect(square.retractions.perMetreOfFilament).toBeCloseTo(500, 6);
    expect(square.firstLayer?.heightMm).toBeCloseTo(0.2, 9);
    expect(square.firstLayer?.speedMmPerS).toBeCloseTo(20, 9);
    expect(square.layerHeight?.usualMm).toBeCloseTo(0.2, 6);
    expect(square.nozzle).toEqual({ usualC: 215, lowestC: 215, highestC: 215 });
    expect(square.plateC).toBe(60);
    expect(square.layers.map(({ fanShare }) => Math.round(100 * fanShare))).toEqual([
      0,
      expect.any(Number),
      50,
    ]);
    expect(square.pauses).toMatchObject([{ seconds: 30 }, { seconds: null }]);
    expect(square.notes).toEqual([]);
  });

  it('times moves by distance over feed rate', () => {
    // Homing takes no time here. Each layer a hop of 0.6 mm up and 0.4 mm down; 12 s of sides; primes and retractions; dwells of 30.5 s.
    const hops = (3 * (0.6 + 0.4)) / 100;
    const primes = (2 * 1) / 30;
    const retracts = (3 * 1) / 40;
    expect(square.seconds).toBeCloseTo(12 + hops + primes + retracts + 30.5, 6);
  });

  it('gives the same figures however the file is cut', () => {
    fc.assert(
      fc.property(fc.array(fc.nat({ max: SQUARE.length }), { maxLength: 40 }), (cuts) => {
        expect(read(SQUARE, cuts)).toEqual(square);
      }),
      { numRuns: 300, seed: 71 },
    );
    expect(
      read(
        SQUARE,
        Array.from({ length: SQUARE.length }, (_, i) => i),
      ),
    ).toEqual(square);
  });

  it('reads relative extrusion, inches and firmware retraction', () => {
    const { filamentMm, retractions, layerCount } = read(
      'G20\nG90\nM83\nG1 Z0.01 F60\nG1 X1 E0.1\nG10\nG0 X2\nG11\nG1 X3 E0.1\nG10 P1 X2\nG21\nG91\nG1 X10 E1\n',
    );
    expect(filamentMm).toBeCloseTo(0.2 * 25.4 + 1, 9);
    expect(retractions).toMatchObject({ count: 1, byFirmware: 1 });
    expect(layerCount).toBe(1);
  });

  it('lets a hop make no layer, and a spiral one for each usual step', () => {
    const hop = read(
      'G90\nM83\nG1 Z0.2 F600\nG1 X10 E1\nG0 Z0.6\nG0 X0\nG0 Z0.2\nG1 X5 E1\nG0 Z0.4\nG1 X0 E1\n',
    );
    expect(hop.layerCount).toBe(2);
    const turns = Array.from(
      { length: 40 },
      (_, i) => `G1 X${(i % 4) * 5} Z${(0.4 + i * 0.05).toFixed(2)} E0.2`,
    );
    const spiral = read(
      ['G90', 'M83', 'G1 Z0.2 F600', 'G1 X3 E1', 'G1 Z0.4', 'G1 X0 E1', ...turns].join('\n'),
    );
    expect(spiral.layerCount).toBeLessThan(14);
  });

  it('keeps arcs between chord and half circle, and reckons quarter and whole turns exactly', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 50, noNaN: true }),
        fc.double({ min: 0.05, max: Math.PI - 0.05, noNaN: true }),
        (radius, angle) => {
          // From (r, 0) against the clock by `angle` about the origin.
          const [x, y] = [radius * Math.cos(angle), radius * Math.sin(angle)];
          const job = `G90\nM83\nG0 X${radius.toFixed(6)} Y0 Z0.2 F60\nG3 X${x.toFixed(6)} Y${y.toFixed(6)} I${(-radius).toFixed(6)} J0 E1\n`;
          const arcSeconds = read(job).seconds - Math.hypot(radius, 0.2) / 1;
          const chord = 2 * radius * Math.sin(angle / 2);
          expect(arcSeconds).toBeGreaterThanOrEqual(chord - 1e-4);
          expect(arcSeconds).toBeLessThanOrEqual(Math.PI * radius + 1e-4);
          expect(arcSeconds).toBeCloseTo(radius * angle, 3);
        },
      ),
      { numRuns: 200, seed: 72 },
    );
    const quarter = (words: string) =>
      read(`G90\nM83\nG0 X10 Y0 F600\nG92 X10 Y0\n${words} E1\n`).seconds - 1;
    expect(quarter('G3 X0 Y10 R10')).toBeCloseTo(((Math.PI / 2) * 10) / 10, 9);
    expect(quarter('G2 X0 Y10 I-10 J0')).toBeCloseTo((1.5 * Math.PI * 10) / 10, 9);
    expect(quarter('G3 X10 Y0 I-10 J0')).toBeCloseTo((2 * Math.PI * 10) / 10, 9);
  });

  it('tells the peak with its place, and what is passed in only 5 % of the time', () => {
    const slow = Array.from({ length: 60 }, (_, i) => `G1 X${i % 2 ? 0 : 10} E0.5 F600`);
    const job = ['G90', 'M83', 'G1 Z0.2 F600', ...slow, 'G1 X40 E6 F1200', ...slow, 'M104 S0'].join('\n');
    const { peakFlow, p95FlowMm3PerS } = read(job);
    expect(peakFlow?.at).toEqual({ line: 64, layer: 1 });
    // 40 mm at 20 mm/s with 6 mm of filament: 3 mm a second.
    expect(peakFlow?.mm3PerS).toBeCloseTo(3 * AREA, 9);
    expect(p95FlowMm3PerS).toBeCloseTo(0.5 * AREA, 1);
  });

  it.each([
    ['a NUL byte', 'G1 X1 E1\nG1 X\0 E1\n', /line 2 holds a NUL byte.*export it as text/],
    ['no extrusion', 'G28\nG1 X10\nG1 X0\n', /none extrudes/],
    ['prose', Array.from({ length: 300 }, () => 'It was a dark and stormy night').join('\n'), /no G-code/],
    ['nothing', '', /none is a command/],
    ['no line breaks', 'x'.repeat(200_000), /longer than 64 KiB/],
  ])('refuses %s with the place and what would be right', (_, text, message) => {
    expect(() => read(text)).toThrow(JobFileError);
    expect(() => read(text)).toThrow(message);
  });

  it('notes a file that was cut off, and passes over macros and messages', () => {
    const { notes, filamentMm } = read(
      'SET_VELOCITY_LIMIT ACCEL=3000\nM117 Layer 1 E99\nM104 S210\nG90\nM83\nG1 Z0.2 F600\nG1 X10 E1\nG1 X20 E1',
    );
    expect(filamentMm).toBe(2);
    expect(notes.map(inEnglish).join(' ')).toMatch(/middle of a line.*still heated/);
  });

  const sides = (count: number) =>
    Array.from({ length: count }, (_, i) => `G1 X${i % 2 ? 0 : 20} E0.5 F1200`).join('\n');

  it('keeps E relative when G90 comes after M83, and says that machines differ', () => {
    const { filamentMm, notes } = read(
      `G90\nM83\nG1 Z0.2 F600\n${sides(50)}\nG91\nG0 Z0.4\nG90\nG0 Z0.4\n${sides(50)}\nM104 S0\n`,
    );
    expect(filamentMm).toBeCloseTo(50, 9);
    expect(notes.map(inEnglish)).toEqual([expect.stringMatching(/^G90 comes after M83/)]);
    expect(read(`M83\nG90\nM83\n${sides(4)}\n`).notes).toEqual([]);
  });

  it('takes the temperature of the tool that prints, not of one that waits', () => {
    const { nozzle, tools } = read(
      `G90\nM83\nM104 S215\nM104 T1 S150\nT0\nG1 Z0.2 F600\n${sides(4)}\nT1\nM109 S240\n${sides(4)}\n`,
    );
    expect(nozzle).toMatchObject({ lowestC: 215, highestC: 240 });
    expect(tools).toEqual([0, 1]);
  });

  it('counts a purge on the spot as used, and what is drawn back and pushed again once', () => {
    const job = `G90\nM83\nG1 E30 F200\nG1 Z0.2 F600\n${sides(50)}\nG1 E-2 F2400\nG1 E2\n${sides(2)}\n`;
    const { filamentMm, volumeMm3 } = read(job);
    expect(filamentMm).toBeCloseTo(30 + 25 + 1, 9);
    expect(volumeMm3).toBeCloseTo(56 * AREA, 9);
  });

  it('takes bare letters, a byte order mark, and arcs of other planes', () => {
    expect(read('G90\nM82\nG1 X10 E1 F600\nG92 E\nG1 X20 E2\n').filamentMm).toBeCloseTo(3, 9);
    expect(read('M83\nM106 S\nG1 X10 E1 F600\n').layers[0]?.fanShare).toBe(1);
    expect(read('\uFEFFG91\nG1 X10 E1 F600\nG1 X10 E1\n').filamentMm).toBeCloseTo(2, 9);
    const { seconds, notes } = read('G18\nM83\nG2 X10 I5 E1 F600\n');
    expect(seconds).toBeCloseTo(1, 9);
    expect(notes.map(inEnglish).join()).toContain('taken as straight');
  });

  it('finds the largest half second, wherever it begins', () => {
    // Moves of random length and flow on one layer; the peak by trying windows every millisecond.
    const moves = fc.array(
      fc.record({ ms: fc.integer({ min: 10, max: 900 }), flow: fc.integer({ min: 1, max: 40 }) }),
      { minLength: 2, maxLength: 30 },
    );
    fc.assert(
      fc.property(moves, (all) => {
        const flows = all.flatMap(({ ms, flow }) => Array.from({ length: ms }, () => flow));
        fc.pre(flows.length >= 500);
        const lines = all.map(
          ({ ms, flow }, i) =>
            `G1 X${i % 2 ? 0 : 10} F${(600_000 / ms).toFixed(9)} E${((flow * ms) / 1000 / AREA).toFixed(12)}`,
        );
        const found = read(`G90\nM83\nG1 Z0.2 F600\n${lines.join('\n')}\n`).peakFlow?.mm3PerS ?? 0;
        let sum = flows.slice(0, 500).reduce((total, one) => total + one, 0);
        let largest = sum;
        for (let end = 500; end < flows.length; end++) {
          sum += (flows[end] ?? 0) - (flows[end - 500] ?? 0);
          largest = Math.max(largest, sum);
        }
        expect(found).toBeCloseTo(largest / 500, 4);
      }),
      { numRuns: 300, seed: 73 },
    );
  });

  it('says that layers after the 20,000th are counted only', () => {
    const layers = Array.from(
      { length: 20_005 },
      (_, i) => `G1 Z${(0.05 * (i + 1)).toFixed(2)} F600\nG1 X${i % 2 ? 0 : 10} E0.1`,
    );
    const { layerCount, layers: kept, notes } = read(['G90', 'M83', ...layers, ''].join('\n'));
    expect([layerCount, kept.length]).toEqual([20_005, 20_000]);
    expect(notes.map(inEnglish)).toEqual([
      'Only the first 20000 of 20005 layers are kept one by one; the totals are of all.',
    ]);
  });

  it.each([
    ['a place that cannot be', `G90\nM83\nG1 X${'9'.repeat(400)} E1\n`, /^line 3: a move of/],
    ['a feed rate that cannot be', 'M83\nG1 X1 E1 F9999999999\n', /^line 2: F9999999999/],
    ['a temperature that cannot be', 'M104 S99999\nG1 X1 E1\n', /^line 1: a set point of 99999/],
    ['a dwell without end', 'G4 S99999999\nG1 X1 E1\n', /^line 1: G4 waits/],
    ['a line without end', `G1 X1 E1\n;${'x'.repeat(100_000)}\n`, /^line 2 is longer/],
  ])('refuses %s, however the file is cut', (_, text, message) => {
    expect(() => read(text)).toThrow(JobFileError);
    expect(() => read(text)).toThrow(message);
    expect(() =>
      read(
        text,
        Array.from({ length: 200 }, (__, i) => i * 1000),
      ),
    ).toThrow(message);
  });

  it('reads E as a volume after M200 and as a length after M200 D0', () => {
    const { filamentMm } = read('M83\nM200 D2\nG1 X10 E3.14159265358979\nM200 D0\nG1 X20 E1\n');
    // 3.14159 mm³ through π/4 · 2² mm² is 1 mm.
    expect(filamentMm).toBeCloseTo(2, 9);
  });

  it('reads the centre of an arc as a place after G90.1', () => {
    const half = 'G1 X10 Y10\nG3 X30 Y10 ';
    const { travelMm } = read(`${half}I10 J0\nG1 X31 E1\n`);
    expect(travelMm).toBeCloseTo(Math.hypot(10, 10) + 10 * Math.PI, 9);
    expect(read(`G90.1\n${half}I20 J10\nG1 X31 E1\n`).travelMm).toBeCloseTo(travelMm, 9);
  });

  it('names lines that do not agree with their checksums', () => {
    // The worked example of the RepRap dialect's open description (from memory): "N3 T0" has the checksum 57.
    expect(withChecksum('N3 T0')).toBe('N3 T0*57');
    const job = (line: string) => read(`M83\n${line}\nG1 X20 E1\n`).notes.map(inEnglish);
    expect(job(withChecksum('N1 G1 X10 E1 '))).toEqual([]);
    expect(job('N1 G1 X10 E1 *1')).toEqual([
      'Line 2 does not agree with its checksum: the file is damaged there, and perhaps elsewhere.',
    ]);
  });

  it('names text in UTF-16, whichever byte comes first, and however it is cut', () => {
    const units = [...'\ufeffG1 X1 E1\nG1 X2 E2\n'].map((one) => one.charCodeAt(0));
    const small = Uint8Array.from(units.flatMap((unit) => [unit & 255, unit >> 8]));
    const big = Uint8Array.from(units.flatMap((unit) => [unit >> 8, unit & 255]));
    for (const bytes of [small, big]) {
      const whole = new JobReader({ filamentDiameterMm: 1.75 });
      expect(() => whole.push(bytes)).toThrow('UTF-16: save it as UTF-8');
      const pieces = new JobReader({ filamentDiameterMm: 1.75 });
      expect(() => bytes.forEach((byte) => pieces.push(Uint8Array.of(byte)))).toThrow(
        'UTF-16: save it as UTF-8',
      );
    }
  });
});
