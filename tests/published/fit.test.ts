/**
 * Which materials suit, against sources outside the project. Numbers were read in the sources named beside them; facts marked
 * "common practice" have no published source.
 */
import { describe, expect, it } from 'vitest';
import { applicationSchema } from '../../src-core/contract/material-fit.ts';
import { factsOfMaterial, judgeMaterial, reportOnFit } from '../../src-core/fit/index.ts';
import { MATERIAL_GRADES, type Agent } from '../../src-core/knowledge/service-schema.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const knowledge = shippedKnowledge();
const facts = (polymer: string, filler = 'none') => factsOfMaterial(knowledge, polymer, filler);
const gradeOf = (polymer: string, agent: Agent) =>
  MATERIAL_GRADES.indexOf(facts(polymer).agents[agent]?.is.grade ?? 'poor');
const judge = (polymer: string, fields: object, filler = 'none') =>
  judgeMaterial(
    facts(polymer, filler),
    applicationSchema.parse({ serviceTemperatureC: 23, ...fields }),
    null,
    knowledge.serviceHeat,
  );
const [, FAIR, GOOD] = [0, 1, 2];

describe('chemicals', () => {
  it('classes of substances at 20 °C, table of a maker of laboratory ware: what it calls excellent suits, what it calls poor does not suit without limits', () => {
    // + no damage in 30 days, o minor damage in 7 to 30 days, - not for lasting contact. PS stands for HIPS, SAN for ASA.
    const alkalis = { hips: '+', asa: '+', pmma: '+', pc: '-', pom: '+', pp: '+' };
    const weakAcids = { hips: 'o', asa: 'o', pmma: '-', pc: 'o', pom: '-', pp: '+' };
    for (const [agent, row] of [
      ['alkalis', alkalis],
      ['acids', weakAcids],
    ] as const)
      for (const [polymer, mark] of Object.entries(row)) {
        if (mark === '+') expect(gradeOf(polymer, agent), `${polymer} ${agent}`).toBeGreaterThanOrEqual(GOOD);
        if (mark === 'o') expect(gradeOf(polymer, agent), `${polymer} ${agent}`).toBeGreaterThanOrEqual(FAIR);
        if (mark === '-') expect(gradeOf(polymer, agent), `${polymer} ${agent}`).toBeLessThanOrEqual(FAIR);
      }
  });

  it('Effects of corrosive environments on plastics, table 1.12, Taylor & Francis 2006, at 25 °C: severe deterioration by ketones, aromatics or chlorinated solvents is poor', () => {
    // A no effect, B slight, C mild, D softening or swelling, E severe; worst of aromatic, chlorinated, esters and ketones.
    const worst = { abs: 'E', pmma: 'E', hips: 'E', pp: 'B', tpu: 'D', pa6: 'A' };
    for (const [polymer, letter] of Object.entries(worst)) {
      if (letter === 'E' || letter === 'D') expect(gradeOf(polymer, 'solvents'), polymer).toBe(0);
      else expect(gradeOf(polymer, 'solvents'), polymer).toBeGreaterThanOrEqual(FAIR);
    }
  });

  it('the same table: strong acids destroy nylon and acetal, weak alkali harms neither', () => {
    for (const polymer of ['pa6', 'pom']) {
      expect(gradeOf(polymer, 'acids'), polymer).toBe(0);
      expect(gradeOf(polymer, 'alkalis'), polymer).toBeGreaterThanOrEqual(GOOD);
    }
  });
});

describe('stiffness', () => {
  it('Crawford R. J., Plastics Engineering, table 1.5: flexural modulus, GPa, inside our ranges', () => {
    const printed = { abs: 2.2, pom: 2.8, pmma: 2.9, pa66: 2.8, peek: 3.8 };
    for (const [polymer, gigapascal] of Object.entries(printed)) {
      const { low, high } = facts(polymer).flexuralModulusGPa?.is ?? { low: Number.NaN, high: Number.NaN };
      expect(gigapascal, polymer).toBeGreaterThanOrEqual(low);
      expect(gigapascal, polymer).toBeLessThanOrEqual(high);
    }
  });

  it('only the elastomers bend like a strap, only they are soft (common practice)', () => {
    const soft = [...knowledge.materials.values()]
      .filter(({ kind }) => kind === 'polymer')
      .map(({ id }) => id)
      .filter((id) => judge(id, { stiffness: 'flexible' }).verdict !== 'does-not-suit');
    expect(soft).toEqual(['tpu', 'tpu-soft', 'tpe']);
  });
});

describe('heat', () => {
  it('glass transition and heat deflection, resin data from memory and a handbook list: no amorphous polymer suits loaded above its glass transition', () => {
    // Callister, Appendix E: PC 150 °C; property list: PLA 60 to 65, ABS 105, HIPS 100, PEI 215.
    const glassC = { pc: 150, pla: 65, abs: 105, hips: 100, pei: 215 };
    for (const [polymer, temperatureC] of Object.entries(glassC)) {
      const at = (serviceTemperatureC: number) =>
        judge(polymer, { serviceTemperatureC, steadyLoad: 'light' });
      expect(at(temperatureC).verdict, polymer).toBe('does-not-suit');
      expect(at(23).judgements[0]?.verdict, polymer).toBe('suits');
    }
  });

  it('under load at 1.8 MPa (common practice): POM bears 75 °C and not 120, PP and nylon 12 give way at 60 °C', () => {
    const heatOf = (polymer: string, serviceTemperatureC: number) =>
      judge(polymer, { serviceTemperatureC, steadyLoad: 'heavy' }).judgements.find(
        ({ demand }) => demand === 'heat',
      )?.verdict;
    expect(heatOf('pom', 75)).toBe('suits');
    expect(heatOf('pom', 120)).toBe('does-not-suit');
    for (const polymer of ['pp', 'pa12']) expect(heatOf(polymer, 60), polymer).toBe('does-not-suit');
  });

  it('continuous use, component maker page: PA6 80 °C, PC 120 °C and ABS 85 °C lie inside our ranges', () => {
    for (const [polymer, temperatureC] of Object.entries({ pa6: 80, pc: 120, abs: 85 })) {
      const { low, high } = facts(polymer).continuousUseC?.is ?? { low: Number.NaN, high: Number.NaN };
      expect(temperatureC, polymer).toBeGreaterThanOrEqual(low);
      expect(temperatureC, polymer).toBeLessThanOrEqual(high);
    }
  });

  it('deflection at 1.8 MPa, printing service page: printed ABS 76 °C, PC 127 °C and PC/ABS 96 °C lie inside our ranges', () => {
    for (const [polymer, temperatureC] of Object.entries({ abs: 76, pc: 127, 'pc-abs': 96 })) {
      const { low, high } = facts(polymer).loadedHeatLimitC?.is ?? { low: Number.NaN, high: Number.NaN };
      expect(temperatureC, polymer).toBeGreaterThanOrEqual(low);
      expect(temperatureC, polymer).toBeLessThanOrEqual(high);
    }
  });

  it('a part in a parked car in summer: PLA does not bear it, ABS and ASA do (common practice)', () => {
    const hotCar = { serviceTemperatureC: 70 };
    expect(judge('pla', hotCar).verdict).toBe('does-not-suit');
    for (const polymer of ['abs', 'asa', 'pc']) expect(judge(polymer, hotCar).verdict, polymer).toBe('suits');
  });
});

describe('light', () => {
  it('Tomastik et al.: ABS and HIPS worst in ten months of ultraviolet, PLA and PC held; Kohutiar et al.: ASA kept its strength', () => {
    const light = (polymer: string) =>
      judge(polymer, { isOutdoors: true }).judgements.find(({ demand }) => demand === 'light')?.verdict;
    for (const polymer of ['abs', 'hips']) expect(light(polymer), polymer).toBe('does-not-suit');
    for (const polymer of ['pla', 'pc', 'asa']) expect(light(polymer), polymer).toBe('suits');
  });

  it('ASA leads the list of what is easy enough to print for outdoors (common practice)', () => {
    const application = applicationSchema.parse({
      serviceTemperatureC: 45,
      isOutdoors: true,
      impact: 'knocks',
    });
    const { materials } = reportOnFit(knowledge, { application, filler: 'none', failedPart: null });
    expect(materials[0]?.polymer).toBe('asa');
  });
});

describe('loads', () => {
  it('a nylon clamp loosens with time (common practice, nylon-creeps): no heavy steady load on nylon 6', () => {
    expect(judge('pa6', { steadyLoad: 'heavy' }).verdict).toBe('does-not-suit');
  });

  it('bushings and gears: acetal and nylon suit steady sliding, PLA and acrylic do not (common practice)', () => {
    for (const polymer of ['pom', 'pa12'])
      expect(judge(polymer, { sliding: 'steady' }).verdict, polymer).toBe('suits');
    for (const polymer of ['pla', 'pmma'])
      expect(judge(polymer, { sliding: 'steady' }).verdict, polymer).toBe('does-not-suit');
  });
});

describe('fillers', () => {
  it.each([
    ['asa', 'aramid-fibre', { isOutdoors: true }, 'light', 'does-not-suit'],
    ['pp', 'metal-powder', { agents: ['acids'] }, 'chemicals', 'does-not-suit'],
    ['pp', 'wood', { agents: ['water'] }, 'water', 'does-not-suit'],
    ['asa', 'wood', { isOutdoors: true }, 'water', 'does-not-suit'],
    ['pp', 'glass-fibre', { agents: ['alkalis'] }, 'chemicals', 'does-not-suit'],
    ['pp', 'mineral', { agents: ['acids'] }, 'chemicals', 'not-known'],
    ['pp', 'metal-powder', { agents: ['alkalis'] }, 'chemicals', 'not-known'],
    ['asa', 'carbon-fibre', { isOutdoors: true }, 'light', 'suits'],
    ['pp', 'carbon-fibre', { agents: ['acids', 'alkalis'] }, 'chemicals', 'suits'],
  ] as const)(
    '%s with %s in %o: %s %s (common practice: aramid ages in the sun, acids eat metal and chalk, wood rots, strong alkali eats glass, carbon bears all three)',
    (polymer, filler, fields, demand, verdict) => {
      const found = judge(polymer, fields, filler).judgements.filter((one) => one.demand === demand);
      expect(found.map((one) => one.verdict)).toEqual(found.map(() => verdict));
      expect(found.length).toBeGreaterThan(0);
    },
  );
});

describe('cold', () => {
  const impactOf = (polymer: string, impact: string, lowestServiceTemperatureC: number) =>
    judge(polymer, { impact, lowestServiceTemperatureC }).judgements.find(({ demand }) => demand === 'impact')
      ?.verdict;

  it('Callister, Appendix E: PP has its glass transition at -10 to 0 °C; it, PLA and acrylic are brittle in frost (common practice)', () => {
    for (const polymer of ['pp', 'pla', 'pmma'])
      for (const impact of ['knocks', 'blows'])
        expect(impactOf(polymer, impact, -20), `${polymer} ${impact}`).toBe('does-not-suit');
  });

  it('PC, TPU and nylon 12 stay tough at -20 °C, ABS less so (common practice)', () => {
    for (const polymer of ['pc', 'tpu', 'pa12'])
      expect(impactOf(polymer, 'blows', -20), polymer).toBe('suits');
    expect(impactOf('abs', 'knocks', -20)).toBe('suits');
    expect(impactOf('abs', 'blows', -20)).toBe('suits-with-limits');
  });

  it('no material suits hard blows colder than anybody has said', () => {
    const application = applicationSchema.parse({
      serviceTemperatureC: 23,
      lowestServiceTemperatureC: -60,
      impact: 'blows',
    });
    const { materials } = reportOnFit(knowledge, { application, filler: 'none', failedPart: null });
    expect(materials.filter(({ verdict }) => verdict.startsWith('suits'))).toEqual([]);
  });
});
