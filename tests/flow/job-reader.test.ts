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
    `N12 G1 X0 Y20 E${layer * 2 + 1.5} *33`,
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
    expect(notes.join(' ')).toMatch(/middle of a line.*still heated/);
  });
});
