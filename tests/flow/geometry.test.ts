import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcLengthMm } from '../../src-core/flow/arc-length.ts';
import { beadAreaMm2, filamentLengthM, flowErrorOfDiameter } from '../../src-core/flow/bead.ts';
import { Histogram } from '../../src-core/flow/histogram.ts';
import { Retractions } from '../../src-core/flow/retractions.ts';
import { Tools } from '../../src-core/flow/tools.ts';
import { usualFlowMm3PerS } from '../../src-core/flow/usual-flow.ts';
import type { Melting } from '../../src-core/knowledge/melting-schema.ts';

const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('the cross-section of a bead', () => {
  it('is what strips laid across it add up to: a middle part and two half rounds', () =>
    fc.assert(
      fc.property(mm(0.05, 1), mm(1, 4), (height, ratio) => {
        const width = height * ratio;
        const strips = 4000;
        let area = 0;
        for (let k = 0; k < strips; k++) {
          const z = ((k + 0.5) / strips - 0.5) * height;
          const round = Math.sqrt((height / 2) ** 2 - z ** 2);
          area += ((width - height + 2 * round) * height) / strips;
        }
        expect(beadAreaMm2(width, height) / area).toBeCloseTo(1, 4);
      }),
      { numRuns: 50 },
    ));

  it.each([
    [0.2, 0.3],
    [0.4, 0],
    [0.4, NaN],
    [Infinity * 0, 0.2],
  ])('is none of %s mm wide and %s mm high', (width, height) =>
    expect(() => beadAreaMm2(width, height)).toThrow(RangeError),
  );
});

describe('filament', () => {
  it('of a kilogram weighs a kilogram: length, cross-section and density give the mass back', () =>
    fc.assert(
      fc.property(mm(0.1, 3), mm(800, 4000), mm(1, 3), (kg, density, diameter) => {
        const m = filamentLengthM(kg, density, diameter);
        expect((m * Math.PI * (diameter / 2000) ** 2 * density) / kg).toBeCloseTo(1, 9);
      }),
    ));

  it('0.05 mm thicker than 1.75 mm flows 5.8 % more, and thinner as much less as geometry says', () => {
    expect(flowErrorOfDiameter(1.75, 0.05)).toBeCloseTo(1.8 ** 2 / 1.75 ** 2 - 1, 12);
    expect(flowErrorOfDiameter(1.75, -0.05)).toBeCloseTo(1.7 ** 2 / 1.75 ** 2 - 1, 12);
  });
});

describe('the length of an arc', () => {
  /** The way along a circle, walked in small steps. */
  const walked = (cx: number, cy: number, radius: number, from: number, sweep: number) => {
    const steps = 20_000;
    let length = 0;
    for (let k = 0; k < steps; k++) {
      const [a, b] = [from + (sweep * k) / steps, from + (sweep * (k + 1)) / steps];
      length += Math.hypot(radius * (Math.cos(b) - Math.cos(a)), radius * (Math.sin(b) - Math.sin(a)));
    }
    return { length, cx, cy };
  };
  const circle = fc.record({
    radius: mm(0.5, 50),
    from: mm(-3, 3),
    sweep: mm(0.05, 6.2),
    turn: fc.constantFrom(1 as const, -1 as const),
  });

  it('by its centre is the way walked, whichever way round and through whatever quarter', () =>
    fc.assert(
      fc.property(circle, ({ radius, from, sweep, turn }) => {
        const at = (angle: number) => ({ x: 7 + radius * Math.cos(angle), y: -3 + radius * Math.sin(angle) });
        const [a, b] = [at(from), at(from + turn * sweep)];
        const length = arcLengthMm({
          turn,
          fromX: a.x,
          fromY: a.y,
          toX: b.x,
          toY: b.y,
          i: 7 - a.x,
          j: -3 - a.y,
          r: null,
        });
        expect(length / walked(7, -3, radius, from, sweep).length).toBeCloseTo(1, 5);
      }),
      { numRuns: 60 },
    ));

  it('by its radius is the short way round, by a negative one the long way', () =>
    fc.assert(
      fc.property(circle, ({ radius, from, sweep, turn }) => {
        const [a, b] = [from, from + turn * sweep];
        const length = arcLengthMm({
          turn,
          fromX: radius * Math.cos(a),
          fromY: radius * Math.sin(a),
          toX: radius * Math.cos(b),
          toY: radius * Math.sin(b),
          i: null,
          j: null,
          r: sweep > Math.PI ? -radius : radius,
        });
        // Near half a turn the radius says little: rounding moves the centre.
        fc.pre(Math.abs(sweep - Math.PI) > 0.05);
        expect(length / (radius * sweep)).toBeCloseTo(1, 6);
      }),
    ));

  const nowhere = { turn: 1, fromX: 1, fromY: 2, toX: 1, toY: 2, i: null, j: null, r: null } as const;
  it('back to where it began is a whole turn; without centre and radius it is straight', () => {
    expect(arcLengthMm({ ...nowhere, i: 3, j: 4 })).toBeCloseTo(10 * Math.PI, 9);
    expect(arcLengthMm({ ...nowhere, turn: -1, i: 3 })).toBeCloseTo(6 * Math.PI, 9);
    expect(arcLengthMm({ ...nowhere, toX: 4, toY: 6 })).toBeCloseTo(5, 12);
    // Too small a radius for the way: half round, as machines do it.
    expect(arcLengthMm({ ...nowhere, toX: 4, toY: 6, r: 1 })).toBeCloseTo(2.5 * Math.PI, 9);
  });
});

describe('what is usual in a job', () => {
  it('is the value with most weight, its step’s dust taken off, and the range is of all', () => {
    const heights = new Histogram(0.01);
    for (const [value, weight] of [
      [0.3, 5],
      [0.1 + 0.2, 4],
      [0.2, 8],
      [0.28, 1],
    ] as const)
      heights.add(value, weight);
    expect(heights.usual()).toBe(0.3);
    expect(heights.range()).toEqual([0.2, 0.3]);
    expect([new Histogram(1).usual(), new Histogram(1).range()]).toEqual([null, null]);
  });

  it('does not grow beyond measure with a file of many values, and still counts those it knows', () => {
    const some = new Histogram(1);
    for (let k = 0; k < 6000; k++) some.add(k);
    some.add(17, 3);
    expect(some.usual()).toBe(17);
    expect(some.range()).toEqual([0, 4999]);
  });
});

describe('filament drawn back', () => {
  it('in several moves, as while wiping, is once and the whole length', () => {
    const some = new Retractions();
    for (let k = 0; k < 3; k++) {
      some.drawBack(0.6, 30);
      some.drawBack(0.2, 20);
      some.push();
    }
    expect(some.figures(1500)).toEqual({
      count: 3,
      byFirmware: 0,
      usualLengthMm: 0.8,
      usualSpeedMmPerS: 30,
      perMetreOfFilament: 2,
    });
    expect(new Retractions().figures(0)).toMatchObject({ count: 0, perMetreOfFilament: 0 });
  });

  it('by the machine counts once until it goes forward, and takes no other’s length away', () => {
    const some = new Retractions();
    some.drawBack(1, 30);
    some.push();
    for (let k = 0; k < 3; k++) {
      some.drawBackByFirmware();
      some.drawBackByFirmware();
      some.drawBack(0.3, 10);
      some.push();
    }
    expect(some.figures(1000)).toMatchObject({ count: 4, byFirmware: 3, usualLengthMm: 1 });
  });
});

describe('tools of a job', () => {
  it('have each their temperature and filament; what is drawn back and pushed again counts once', () => {
    const tools = new Tools();
    expect([tools.nozzleC, tools.isSomeHot, tools.numbersChosen]).toEqual([null, false, []]);
    tools.heat(210, null);
    tools.heat(250, 1);
    tools.feed(100);
    tools.feed(-5);
    tools.feed(5);
    tools.choose(1);
    tools.feed(-2);
    tools.feed(12);
    expect([tools.nozzleC, tools.usedMm]).toEqual([250, 110]);
    // What is drawn back at the end of a job was used all the same.
    tools.feed(-4);
    expect(tools.usedMm).toBe(110);
    tools.choose(0);
    expect([tools.nozzleC, tools.numbersChosen]).toEqual([210, [0, 1]]);
    tools.heat(0, null);
    tools.heat(0, 1);
    expect(tools.isSomeHot).toBe(false);
  });
});

describe('flow to expect from the bore', () => {
  const melting = { usualFlow: { nozzleMm: 0.4, mm3PerS: 6, highestMm3PerS: 20 } } as Melting;

  it('goes with its square up to what a hot end of the guide melts at most', () => {
    expect(usualFlowMm3PerS(melting)).toBe(6);
    expect(usualFlowMm3PerS(melting, 0.6)).toBe(13.5);
    expect(usualFlowMm3PerS(melting, 0.2)).toBe(1.5);
    expect(usualFlowMm3PerS(melting, 0.8)).toBe(20);
    expect(
      [0.09, 2.01, NaN].map((nozzle) => () => usualFlowMm3PerS(melting, nozzle)).every((ask) => throws(ask)),
    ).toBe(true);
    expect(usualFlowMm3PerS(melting, 0.1)).toBeGreaterThan(0);
  });
});

function throws(ask: () => unknown): boolean {
  try {
    ask();
    return false;
  } catch (error) {
    return error instanceof RangeError;
  }
}
