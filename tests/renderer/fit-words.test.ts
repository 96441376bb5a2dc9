import { describe, expect, it } from 'vitest';
import { applicationSchema } from '../../src-core/contract/material-fit.ts';
import { reportOnFit } from '../../src-core/fit/index.ts';
import { useWords } from '../../src-renderer/screens/materials/use-choices.ts';
import { inUnit, wordsIn } from '../../src-renderer/wording/words-in.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { marginWords, withoutCauseWords } from '../../src-renderer/screens/materials/fit-words.ts';

describe('margins in words', () => {
  it.each([
    [{ kind: 'kelvin', low: 33, high: 41, wanted: 20 }, '33 to 41 °C to spare'],
    [{ kind: 'kelvin', low: 10, high: 18, wanted: 20 }, '10 to 18 °C to spare, 20 °C wanted'],
    [{ kind: 'kelvin', low: -5, high: -5, wanted: 5 }, '5 °C short'],
    [{ kind: 'kelvin', low: -10, high: 0, wanted: 5 }, '0 to 10 °C short'],
    [{ kind: 'kelvin', low: -20, high: 20, wanted: 5 }, '20 °C short to 20 °C to spare'],
    [{ kind: 'grades', steps: 0 }, 'just met'],
    [{ kind: 'grades', steps: -2 }, '2 grades short'],
    [{ kind: 'times', low: 0.5, high: 1.24 }, 'met 0.5 to 1.2 times'],
  ] as const)('%o is "%s"', (margin, words) => {
    expect(marginWords(margin, '°C')).toBe(words);
  });

  it('a margin in °F scales without the shift of 32', () => {
    expect(marginWords({ kind: 'kelvin', low: -10, high: -5, wanted: 5 }, '°F')).toBe('9 to 18 °F short');
  });
});

const knowledge = shippedKnowledge();
const report = (fields: object, polymer = 'pla') =>
  reportOnFit(knowledge, {
    application: applicationSchema.parse({ serviceTemperatureC: 20, ...fields }),
    filler: 'none',
    failedPart: { polymer, filler: 'none' },
  });
const said = (fields: object, polymer: string, demand: string) => {
  const { materials } = report(fields);
  const one = materials
    .find((fit) => fit.polymer === polymer)
    ?.judgements.find((judgement) => judgement.demand === demand);
  if (!one) throw new Error(`no judgement of ${demand}`);
  return `${wordsIn(one.label, '°F')}: ${wordsIn(one.reason, '°F')}`;
};

describe('sentences of the answer in °F: 9/5 and 32 for temperatures, 9/5 alone for differences', () => {
  it('heat: points and reserve', () => {
    // PETG gives way at 60 °C = 140 °F under 1.8 MPa and at 72 °C = 161.6 °F under 0.45 MPa; 10 K = 18 °F.
    expect(said({ serviceTemperatureC: 50, steadyLoad: 'light' }, 'petg', 'heat')).toMatch(
      /^122 °F in service: Gives way under 1\.8 MPa at 140 °F, under a small load at 162 °F; a light load wants that 18 °F above the service temperature\./,
    );
    expect(said({ isOutdoors: true }, 'pla', 'heat')).toContain(
      'A dark part in the sun reaches about 149 °F: make',
    );
  });

  it('what was typed in °F comes back as it was', () => {
    // 98 °F = 36.67 °C, 100 °F = 37.78 °C.
    expect(said({ serviceTemperatureC: 36.67 }, 'petg', 'heat')).toMatch(/^98 °F in service/);
    expect(said({ serviceTemperatureC: 37.78 }, 'petg', 'heat')).toMatch(/^100 °F in service/);
  });

  it('frost, below and above 0 °F', () => {
    const blows = (lowestServiceTemperatureC: number) => ({ lowestServiceTemperatureC, impact: 'blows' });
    expect(said(blows(-30), 'pa6', 'impact')).toBe(
      'Hard blows at -22 °F: Not known: the guide says nothing of its impact at -22 °F.',
    );
    expect(said(blows(-35), 'pc', 'impact')).toMatch(/^Hard blows at -31 °F: .* its impact below -22 °F\.$/);
    expect(said(blows(-10), 'pp', 'impact')).toMatch(/^Hard blows at 14 °F: /);
  });

  it('glass transition of a loaded part, and heat short of the moulded part as a difference', () => {
    // ABS: glass transition 105 °C (materials property list) = 221 °F.
    expect(said({ serviceTemperatureC: 110, steadyLoad: 'light' }, 'abs', 'steady-load')).toContain(
      'warmer than its glass transition of 221 °F it creeps faster',
    );
    // PETG 68 °C against PC/ABS 105 °C is 37 K short = 66.6 °F.
    expect(said({ standsInFor: 'pc-abs' }, 'petg', 'stand-in')).toContain(
      'Gives way 67 °F below the moulded part’s lowest grade',
    );
  });
});

describe('a part that failed without a cause to point to', () => {
  const wordsOf = (fields: object, polymer: string) => {
    const { failedPart } = report(fields, polymer);
    if (!failedPart) throw new Error('no answer about the part');
    expect(failedPart.pointsTo).toEqual([]);
    return withoutCauseWords(failedPart);
  };

  it('says that water speaks against PVA, looks against ABS, and what is not known of it', () => {
    expect(wordsOf({ agents: ['water'] }, 'pva')).toMatch(
      /^This speaks against the material: Water and damp\./,
    );
    expect(wordsOf({ looks: 'clear' }, 'abs')).toMatch(/^This speaks against the material: See-through\./);
    expect(wordsOf({ agents: ['water'] }, 'pa6')).toContain('with limits only: Water and damp.');
    expect(wordsOf({ sliding: 'some' }, 'pva')).toMatch(/^Not known whether .*: Slides now and then\./);
  });

  it('says that nothing speaks against it only where everything suits', () => {
    expect(wordsOf({}, 'petg')).toContain('does not speak against');
    for (const fields of [{ agents: ['water'] }, { looks: 'clear' }, { stiffness: 'rubbery' }])
      expect(wordsOf(fields, 'pa6')).not.toContain('does not speak against');
  });
});

describe('the use on the printed page', () => {
  const words = (fields: object, filler = 'none') =>
    useWords(
      applicationSchema.parse({ serviceTemperatureC: 60, ...fields }),
      filler,
      (id) => knowledge.materials.get(id)?.label ?? id,
    );

  it('names what is asked and nothing else, in the reader’s unit', () => {
    expect(words({})).toBe('Up to 60 °C.');
    const asked = { lowestServiceTemperatureC: -20, impact: 'blows', isOutdoors: true, agents: ['acids'] };
    expect(inUnit(words({ ...asked, standsInFor: 'abs' }, 'carbon-fibre'), '°F')).toBe(
      'Up to 140 °F, down to -4 °F. Impact: hard blows. Around it: outdoors and acids. In place of moulded ABS. Filled with carbon fibre.',
    );
  });
});
