import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AGENTS } from '../../src-core/knowledge/service-schema.ts';
import { FIT_VERDICTS } from '../../src-core/contract/fit-verdicts.ts';
import { applicationSchema, fitReportSchema } from '../../src-core/contract/material-fit.ts';
import {
  factsOfMaterial,
  gradeInWords,
  judgeHeat,
  judgeMaterial,
  rankMaterials,
  reportOnFit,
  type MaterialFacts,
} from '../../src-core/fit/index.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = shippedKnowledge();
const polymers = [...knowledge.materials.values()].filter(({ kind }) => kind === 'polymer');
const applicationOf = (fields: Partial<ReturnType<typeof applicationSchema.parse>>) =>
  applicationSchema.parse({ serviceTemperatureC: 23, ...fields });
const facts = (polymer: string, filler = 'none') => factsOfMaterial(knowledge, polymer, filler);
const judge = (polymer: string, fields: Parameters<typeof applicationOf>[0], filler = 'none') =>
  judgeMaterial(facts(polymer, filler), applicationOf(fields), null, knowledge.serviceHeat);
const demandOf = (fit: ReturnType<typeof judge>, demand: string) =>
  fit.judgements.find((one) => one.demand === demand);

const applications = fc.record({
  serviceTemperatureC: fc.integer({ min: -40, max: 300 }),
  lowestServiceTemperatureC: fc.option(fc.integer({ min: -60, max: -40 })),
  steadyLoad: fc.constantFrom('none', 'light', 'heavy'),
  impact: fc.constantFrom('none', 'knocks', 'blows'),
  isOutdoors: fc.boolean(),
  agents: fc.subarray([...AGENTS]),
  sliding: fc.constantFrom('none', 'some', 'steady'),
  stiffness: fc.constantFrom('any', 'rigid', 'springy', 'flexible', 'rubbery'),
  looks: fc.constantFrom('any', 'clear', 'smooth'),
  contact: fc.constantFrom('none', 'skin', 'food'),
  standsInFor: fc.constantFrom(null, 'abs', 'pa6', 'pom', 'tpu'),
});
const fillers = fc.constantFrom(
  'none',
  'carbon-fibre',
  'glass-fibre',
  'aramid-fibre',
  'wood',
  'metal-powder',
  'mineral',
  'glow-pigment',
  'glitter',
  'esd',
  'ptfe',
  'glass-bubbles',
);

describe('grades out of words', () => {
  it('explanations do not limit, conditions do, and other words are no grade', () => {
    expect(gradeInWords('very good: bears oils')).toEqual({ grade: 'very-good', isConditional: false });
    expect(gradeInWords('poor unless stabilised')).toEqual({ grade: 'poor', isConditional: true });
    expect(gradeInWords('goodish')).toBeNull();
    expect(gradeInWords('dissolves')).toBeNull();
  });

  it('every polymer of the guide has creep, impact and ultraviolet in words that begin with a grade', () => {
    for (const { id, kind } of knowledge.materials.values()) {
      if (kind !== 'polymer') continue;
      const { creep, impact, ultraviolet, heatLimitC } = facts(id);
      for (const fact of [creep, impact, ultraviolet, heatLimitC]) expect(fact, id).not.toBeNull();
    }
  });
});

describe('heat', () => {
  const heatOf = (low: number, high: number, serviceC: number, fields = {}) => {
    const heatLimitC: MaterialFacts['heatLimitC'] = {
      is: { low, high },
      words: '',
      source: 'estimate',
      confidence: 'low',
    };
    // One limit alone, so that its reserve is seen.
    return judgeHeat(
      { ...facts('pla'), heatLimitC, loadedHeatLimitC: null, continuousUseC: null },
      applicationOf({ serviceTemperatureC: serviceC, ...fields }),
      knowledge.serviceHeat,
    );
  };
  const underThree = (limits: { light: number; loaded: number; years: number }, fields = {}) => {
    const at = (is: number): MaterialFacts['heatLimitC'] => ({
      is: { low: is, high: is },
      words: '',
      source: 'estimate',
      confidence: 'low',
    });
    return judgeHeat(
      {
        ...facts('pla'),
        heatLimitC: at(limits.light),
        loadedHeatLimitC: at(limits.loaded),
        continuousUseC: at(limits.years),
      },
      applicationOf(fields),
      knowledge.serviceHeat,
    );
  };

  it('the margin is limit minus service temperature: 55 °C against 60 °C is −5 K and does not suit', () => {
    const judged = heatOf(55, 55, 60);
    expect(judged.margin).toEqual({ kind: 'kelvin', low: -5, high: -5, wanted: 5 });
    expect(judged.verdict).toBe('does-not-suit');
  });

  it.each(['none', 'light', 'heavy'] as const)(
    'with load %s suits exactly from its reserve on',
    (steadyLoad) => {
      const reserve = knowledge.serviceHeat.reserveK[steadyLoad].value;
      const at = (over: number) => heatOf(60 + over, 60 + over, 60, { steadyLoad }).verdict;
      expect(at(reserve)).toBe('suits');
      expect(at(reserve - 0.1)).toBe('does-not-suit');
      expect(heatOf(60 + reserve - 1, 60 + reserve, 60, { steadyLoad }).verdict).toBe('suits-with-limits');
    },
  );

  it('a heavy load counts against the deflection at 1.8 MPa, no load against that at 0.45 MPa, a light one lies between', () => {
    // 150 °C at 0.45 MPa, 100 °C at 1.8 MPa; at 90 °C in service 10 K are left of the latter.
    const limits = { light: 150, loaded: 100, years: 200 };
    const at = (serviceTemperatureC: number, steadyLoad: 'none' | 'light' | 'heavy') =>
      underThree(limits, { serviceTemperatureC, steadyLoad });
    expect(at(90, 'none').verdict).toBe('suits');
    expect(at(90, 'light').verdict).toBe('suits');
    expect(at(91, 'light').verdict).toBe('suits-with-limits');
    expect(at(141, 'light').verdict).toBe('does-not-suit');
    expect(at(90, 'heavy').verdict).toBe('does-not-suit');
    expect(at(80, 'heavy').verdict).toBe('suits');
    expect(at(80, 'heavy').margin).toEqual({ kind: 'kelvin', low: 20, high: 20, wanted: 20 });
  });

  it('what bears the heat for a while but not for years does not suit, and says so', () => {
    const limits = { light: 160, loaded: 120, years: 100 };
    const hot = underThree(limits, { serviceTemperatureC: 101 });
    expect(hot.verdict).toBe('does-not-suit');
    expect(inEnglish(hot.reason)).toContain('100 °C for years');
    expect(hot.margin).toEqual({ kind: 'kelvin', low: -1, high: -1, wanted: 0 });
    expect(underThree(limits, { serviceTemperatureC: 100 }).verdict).toBe('suits');
  });

  it('more load never bears more heat, in any polymer of the guide', () => {
    const loads = ['none', 'light', 'heavy'] as const;
    for (const { id, kind } of knowledge.materials.values()) {
      if (kind !== 'polymer') continue;
      for (let serviceTemperatureC = 20; serviceTemperatureC <= 260; serviceTemperatureC += 5) {
        const order = loads.map((steadyLoad) =>
          FIT_VERDICTS.indexOf(
            judgeHeat(facts(id), applicationOf({ serviceTemperatureC, steadyLoad }), knowledge.serviceHeat)
              .verdict,
          ),
        );
        expect(order, `${id} at ${serviceTemperatureC} °C`).toEqual(order.toSorted((a, b) => a - b));
      }
    }
  });

  it('the sun limits what would suit in the shade, and nothing that bears 65 °C', () => {
    expect(demandOf(judge('pla', { serviceTemperatureC: 30 }), 'heat')?.verdict).toBe('suits');
    expect(demandOf(judge('pla', { serviceTemperatureC: 30, isOutdoors: true }), 'heat')?.verdict).toBe(
      'suits-with-limits',
    );
    expect(demandOf(judge('asa', { serviceTemperatureC: 30, isOutdoors: true }), 'heat')?.verdict).toBe(
      'suits',
    );
  });
});

describe('what is not known', () => {
  it('is said and never counts as fit: wear of PVA, creep of wood-filled PLA, stiffness of filled TPU', () => {
    const cases = [
      [judge('pva', { sliding: 'some' }), 'sliding'],
      [judge('pla', { steadyLoad: 'light' }, 'wood'), 'steady-load'],
      [judge('tpu', { stiffness: 'flexible' }, 'glass-fibre'), 'stiffness'],
      [judge('bvoh', { agents: ['solvents'] }), 'chemicals'],
    ] as const;
    for (const [fit, demand] of cases) {
      expect(demandOf(fit, demand)?.verdict).toBe('not-known');
      expect(inEnglish(demandOf(fit, demand)?.reason ?? [])).toMatch(/^Not known/);
      expect(fit.verdict).not.toMatch(/^suits/);
    }
  });

  it('filled stiffness is open upwards, so a moulded part stands in for nothing that must match it', () => {
    const standsIn = judgeMaterial(
      facts('abs', 'carbon-fibre'),
      applicationOf({ standsInFor: 'abs' }),
      facts('abs'),
      knowledge.serviceHeat,
    );
    expect(demandOf(standsIn, 'stand-in')?.verdict).not.toMatch(/^suits/);
  });

  it('impact in frost without data, and stiffness there of what is soft in the room', () => {
    const cold = { lowestServiceTemperatureC: -30 };
    expect(demandOf(judge('pa6', { ...cold, impact: 'blows' }), 'impact')?.verdict).toBe('not-known');
    expect(demandOf(judge('tpu', { ...cold, stiffness: 'flexible' }), 'stiffness')?.verdict).toBe(
      'not-known',
    );
    expect(demandOf(judge('pla', { ...cold, stiffness: 'flexible' }), 'stiffness')?.verdict).toBe(
      'does-not-suit',
    );
    expect(inEnglish(demandOf(judge('pa6', { ...cold, impact: 'blows' }), 'impact')?.reason ?? [])).toContain(
      '-30 °C',
    );
  });

  it('says what it depends on where the maker alone can tell', () => {
    expect(
      inEnglish(demandOf(judge('petg', { agents: ['acids'] }, 'mineral'), 'chemicals')?.reason ?? []),
    ).toBe(
      'Not known: chalk and marble dissolve in acids, talc and ceramic do not: ask which mineral it is.',
    );
  });

  it('food never suits outright, and fibres not at all on skin', () => {
    const food = reportOnFit(knowledge, {
      application: applicationOf({ contact: 'food' }),
      filler: 'none',
      failedPart: null,
    });
    expect(food.materials.every(({ verdict }) => verdict !== 'suits')).toBe(true);
    expect(food.cautions.map(({ id }) => id)).toEqual(['food-contact']);
    expect(judge('petg', { contact: 'skin' }, 'carbon-fibre').verdict).toBe('does-not-suit');
  });
});

describe('the report', () => {
  it('keeps the contract, judges every demand of every polymer, and is ordered by verdict', () => {
    fc.assert(
      fc.property(applications, fillers, (application, filler) => {
        const report = reportOnFit(knowledge, {
          application,
          filler,
          failedPart: { polymer: 'pla', filler },
        });
        const parsed = fitReportSchema.safeParse(report);
        expect(parsed.error?.issues ?? []).toEqual([]);
        expect(report.materials).toHaveLength(polymers.length);
        const order = report.materials.map(({ verdict }) => FIT_VERDICTS.indexOf(verdict));
        expect(order).toEqual(order.toSorted((a, b) => a - b));
        for (const { judgements } of report.materials)
          for (const one of judgements)
            expect(one.source === null).toBe(one.verdict === 'not-known' && one.demand !== 'contact');
      }),
      { numRuns: 150 },
    );
  });

  it('asking more never makes a material fitter', () => {
    fc.assert(
      fc.property(applications, fc.integer({ min: 0, max: 100 }), (application, hotter) => {
        // The coldest stays: a part that is warm all the time is not knocked in frost.
        const lowestServiceTemperatureC =
          application.lowestServiceTemperatureC ?? application.serviceTemperatureC;
        const serviceTemperatureC = application.serviceTemperatureC + hotter;
        const worse = { ...application, serviceTemperatureC, lowestServiceTemperatureC };
        for (const polymer of ['pla', 'abs', 'pa6', 'tpu', 'peek']) {
          const before = FIT_VERDICTS.indexOf(
            judgeMaterial(facts(polymer), application, null, knowledge.serviceHeat).verdict,
          );
          const after = FIT_VERDICTS.indexOf(
            judgeMaterial(facts(polymer), worse, null, knowledge.serviceHeat).verdict,
          );
          expect(after).toBeGreaterThanOrEqual(before);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('colder never makes a material fitter', () => {
    fc.assert(
      fc.property(
        applications,
        fillers,
        fc.integer({ min: -60, max: 20 }),
        fc.integer({ min: 0, max: 40 }),
        (application, filler, coldC, colder) => {
          for (const { id, kind } of knowledge.materials.values()) {
            if (kind !== 'polymer') continue;
            const at = (lowestServiceTemperatureC: number) => {
              const use = { ...application, serviceTemperatureC: 23, lowestServiceTemperatureC };
              return FIT_VERDICTS.indexOf(
                judgeMaterial(facts(id, filler), use, null, knowledge.serviceHeat).verdict,
              );
            };
            expect(at(coldC - colder), id).toBeGreaterThanOrEqual(at(coldC));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a filler that the guide says nothing of leaves the answer open, whatever is asked of it', () => {
    const silent = { ...knowledge, mixtures: new Map() };
    fc.assert(
      fc.property(applications, fillers, (application, filler) => {
        fc.pre(filler !== 'none');
        const asked =
          application.isOutdoors || application.agents.length > 0 || application.sliding !== 'none';
        const { materials } = reportOnFit(silent, { application, filler, failedPart: null });
        if (asked) expect(materials.filter(({ verdict }) => verdict.startsWith('suits'))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('a filler never makes a material bear more light or chemicals in the room than its polymer alone', () => {
    fc.assert(
      fc.property(applications, fillers, (application, filler) => {
        for (const polymer of ['pla', 'petg', 'asa', 'pp', 'pa12', 'peek']) {
          const inTheRoom = { ...application, serviceTemperatureC: 23, lowestServiceTemperatureC: null };
          const surroundings = (fit: ReturnType<typeof judgeMaterial>) =>
            fit.judgements.filter(({ demand }) => ['light', 'water', 'chemicals'].includes(demand));
          const filled = surroundings(
            judgeMaterial(facts(polymer, filler), inTheRoom, null, knowledge.serviceHeat),
          );
          surroundings(judgeMaterial(facts(polymer), inTheRoom, null, knowledge.serviceHeat)).forEach(
            (alone, i) => {
              const order = FIT_VERDICTS.indexOf(filled[i]?.verdict ?? 'suits');
              expect(order, `${polymer} ${alone.label}`).toBeGreaterThanOrEqual(
                FIT_VERDICTS.indexOf(alone.verdict),
              );
            },
          );
        }
      }),
      { numRuns: 60 },
    );
  });

  it('ranks alike whatever the order given, but for equals', () => {
    const fits = ['pla', 'petg', 'abs', 'asa', 'pc'].map((polymer) =>
      judge(polymer, { serviceTemperatureC: 70 }),
    );
    expect(rankMaterials(fits.toReversed()).map(({ polymer }) => polymer)).toEqual(
      rankMaterials(fits).map(({ polymer }) => polymer),
    );
  });

  it('says which material it lacks', () => {
    expect(() => facts('unobtainium')).toThrow('the guide has no polymer "unobtainium"');
    expect(() => facts('pla', 'sand')).toThrow('the guide has no filler "sand"');
  });
});

describe('a part that failed', () => {
  const failed = (polymer: string, fields: Parameters<typeof applicationOf>[0]) => {
    const question = {
      application: applicationOf(fields),
      filler: 'none',
      failedPart: { polymer, filler: 'none' },
    };
    const { failedPart } = reportOnFit(knowledge, question);
    if (!failedPart) throw new Error('no answer about the part');
    return failedPart;
  };
  const oddsOf = (cause: string, conditions: Record<string, string | number>) => {
    const prior =
      knowledge.priorsUnder(conditions).priors[knowledge.causeIndex.get(cause) ?? -1] ?? Number.NaN;
    return prior / (1 - prior);
  };

  it.each([
    ['pla', { serviceTemperatureC: 60 }, 'heat-above-limit'],
    ['pa6', { steadyLoad: 'heavy' }, 'creep-under-steady-load'],
    ['abs', { isOutdoors: true }, 'ultraviolet-ageing'],
    ['pc', { agents: ['alkalis'] }, 'chemical-attack'],
    ['pla', { impact: 'blows' }, 'impact-beyond-polymer'],
    ['pla', { sliding: 'steady' }, 'wear-in-use'],
  ] as const)(
    '%s in %o points first to %s, and its prior rises as one would say',
    (polymer, fields, cause) => {
      const { pointsTo, readings } = failed(polymer, {
        ...fields,
        agents: [...('agents' in fields ? fields.agents : [])],
      });
      expect(pointsTo[0]?.cause).toBe(cause);
      const conditions = Object.fromEntries(readings.map(({ id, value }) => [id, value]));
      expect(oddsOf(cause, { polymer, ...conditions }) / oddsOf(cause, {})).toBeGreaterThan(10);
    },
  );

  it('the worked-out condition takes the place of the rules of thumb instead of adding to them', () => {
    const rough = { polymer: 'pla', 'part-use': 'warm-place' };
    expect(oddsOf('heat-above-limit', { ...rough, 'fit-heat': 'enough' })).toBeCloseTo(
      oddsOf('heat-above-limit', { 'fit-heat': 'enough' }),
      10,
    );
  });

  it('water that the material does not bear stands in the answer, though it is no condition of a case', () => {
    const { fit, readings } = failed('pva', { agents: ['water'] });
    expect(fit.judgements.find(({ demand }) => demand === 'water')?.verdict).toBe('does-not-suit');
    expect(readings.map(({ id }) => id)).toEqual(['fit-heat']);
  });

  it('demands that were not stated and answers that are not known give no condition', () => {
    expect(failed('pla', {}).readings.map(({ id }) => id)).toEqual(['fit-heat']);
    // Rain is water: it swells parts, and is no chemical that attacks them.
    expect(failed('pla', { isOutdoors: true }).readings.map(({ id }) => id)).toEqual([
      'fit-heat',
      'fit-light',
    ]);
    expect(failed('bvoh', { agents: ['solvents'] }).readings.map(({ id }) => id)).toEqual(['fit-heat']);
  });
});
