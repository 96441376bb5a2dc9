import { levelsOf } from './compile.ts';
import type { KnowledgeFault } from './fault.ts';
import type { PlacedLists } from './placed-lists.ts';
import { strengthProbability } from './scale.ts';
import type { LinkStrength, Observation } from './schema.ts';

type Place = { file: string; line: number };

/** Faults of numbers: strengths that do not fit the grades, doubled links, bands with gaps. */
export function checkStrengths(lists: PlacedLists): KnowledgeFault[] {
  const faults: KnowledgeFault[] = [];
  const observations = new Map(lists.observations.map(({ entry }) => [entry.id, entry]));
  for (const { entry: observation, at } of lists.observations) {
    faults.push(...strengthFaults(observation, observation.leak.strength, at('leak', 'strength')));
    faults.push(...bandFaults(observation, at('measure')));
    if (observation.grades && observation.measure) {
      faults.push(
        fault('two-scales', at('grades'), `"${observation.id}" has grades and a measure`, 'keep one of them'),
      );
    }
    if ((observation.kind === 'measurement') !== (observation.measure !== undefined)) {
      faults.push(
        fault(
          'no-measure',
          at('kind'),
          `"${observation.id}" is a measurement only when it has a measure`,
          'add "measure" with unit and bands, or change the kind',
        ),
      );
    }
  }
  for (const { entry, at } of [...lists.causes, ...lists.mechanisms]) {
    const linked = new Set<string>();
    entry.shows.forEach((link, i) => {
      const observation = observations.get(link.to);
      if (observation) faults.push(...strengthFaults(observation, link.strength, at('shows', i, 'strength')));
      if (linked.has(link.to)) {
        faults.push(
          fault('doubled-link', at('shows', i), `"${entry.id}" shows "${link.to}" twice`, 'keep one'),
        );
      }
      linked.add(link.to);
    });
  }
  for (const { entry: table, at } of lists.linkTables) {
    const observation = observations.get(table.id);
    if (!observation) continue;
    for (const [cause, strength] of Object.entries(table.from))
      faults.push(...strengthFaults(observation, strength, at('from', cause)));
    if (table.leak !== undefined) faults.push(...strengthFaults(observation, table.leak, at('leak')));
  }
  for (const { entry: cause, at } of lists.causes) {
    const driven = new Set<string>();
    cause.drives.forEach((link, i) => {
      if (driven.has(link.to)) {
        faults.push(
          fault('doubled-link', at('drives', i), `"${cause.id}" drives "${link.to}" twice`, 'keep one'),
        );
      }
      driven.add(link.to);
      if (typeof link.strength === 'object') {
        faults.push(
          fault(
            'bad-strength',
            at('drives', i),
            `"${cause.id}" drives "${link.to}" by grades`,
            'mechanisms have no grades: give one strength',
          ),
        );
      }
    });
  }
  return faults;
}

function strengthFaults(observation: Observation, strength: LinkStrength, place: Place): KnowledgeFault[] {
  const levels = levelsOf(observation);
  const scaled = levels.slice(1).join(', ');
  if (typeof strength !== 'object') {
    if (levels.length === 2 && !observation.measure) return [];
    if (levels.length === 2) return [];
    return [
      fault(
        'bad-strength',
        place,
        `one strength for "${observation.id}", which has ${scaled}`,
        `write {${scaled.replaceAll(', ', ': …, ')}: …}`,
      ),
    ];
  }
  const unknown = Object.keys(strength).filter((level) => !levels.slice(1).includes(level));
  if (unknown.length > 0) {
    return [
      fault('bad-strength', place, `"${observation.id}" has no ${unknown.join(', ')}`, `use ${scaled}`),
    ];
  }
  if (observation.measure) {
    const sum = Object.values(strength).reduce<number>((total, one) => total + strengthProbability(one), 0);
    return sum < 1
      ? []
      : [
          fault(
            'bad-strength',
            place,
            `the bands of "${observation.id}" add up to ${sum.toFixed(2)}`,
            'bands exclude each other: keep their sum below 1',
          ),
        ];
  }
  let previous = 1;
  for (const level of levels.slice(1)) {
    const given = strength[level];
    if (given === undefined) {
      previous = 0;
      continue;
    }
    const probability = strengthProbability(given);
    if (probability > previous) {
      return [
        fault(
          'bad-strength',
          place,
          `"${observation.id}" is more likely at least ${level} than at least the grade below`,
          'chances fall from grade to grade',
        ),
      ];
    }
    previous = probability;
  }
  return [];
}

/** Bands other than the first may lie on either side of it; together they must cover the range without overlap. */
function bandFaults(observation: Observation, place: Place): KnowledgeFault[] {
  const measure = observation.measure;
  if (!measure) return [];
  const sorted = [...measure.bands].sort((a, b) => (a.from ?? -Infinity) - (b.from ?? -Infinity));
  let reached = -Infinity;
  for (const band of sorted) {
    if ((band.from ?? -Infinity) !== reached) {
      return [
        fault(
          'bad-bands',
          place,
          `the bands of "${observation.id}" leave a gap or overlap at ${band.from ?? 'the start'}`,
          'let each band begin where another ends',
        ),
      ];
    }
    reached = band.below ?? Infinity;
  }
  return reached === Infinity
    ? []
    : [
        fault(
          'bad-bands',
          place,
          `the bands of "${observation.id}" end at ${reached}`,
          'leave the last band open above',
        ),
      ];
}

function fault(code: string, place: Place, message: string, remedy: string): KnowledgeFault {
  return { code, ...place, message, remedy };
}
