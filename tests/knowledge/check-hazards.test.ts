import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src-core/knowledge/load.ts';
import { shippedTexts } from '../shipped-knowledge.ts';

/** Faults of the shipped guide with one entry's text changed: "message - remedy". */
function faultsWith(id: string, change: (entry: string) => string): string[] {
  let changed = 0;
  const texts = shippedTexts().map(({ file, text }) => ({
    file,
    text: text.replace(new RegExp(`^  - id: ${id}\\n(?:(?!^  - id: ).*\\n)*`, 'm'), (entry) => {
      changed += change(entry) === entry ? 0 : 1;
      return change(entry);
    }),
  }));
  expect(changed).toBe(1);
  const loaded = loadKnowledge(texts);
  return loaded.ok ? [] : loaded.faults.map(({ message, remedy }) => `${message} - ${remedy}`);
}

// What hurts is common practice; it stands, with sources, in knowledge/cautions.yaml.
describe('a hazard word in a step', () => {
  it.each([
    ['heat', 'Press the insert in with a soldering iron.', 'soldering iron'],
    ['fumes', 'Make two cold pulls.', 'cold pulls'],
    ['solvent', 'Spray the plate.', 'Spray'],
    ['flammable', 'Wipe it with acetone.', 'acetone'],
    ['fibre-dust', 'Drill the hole to size.', 'Drill'],
    ['mains', 'Look at the terminals.', 'terminals'],
    ['moving-parts', 'Jog the axis with a hand at the stop button.', 'Jog'],
    ['hot-water', 'Hold it in 70 °C water.', '70 °C water'],
    ['failing-part', 'Load it as in use.', 'as in use'],
  ])('asks for the hazard "%s": %s', (hazard, step, word) => {
    const faults = faultsWith('copy-file-afresh', (entry) =>
      entry.replace('    steps:\n', `    steps:\n      - do: ${step}\n`),
    );
    expect(faults).toContain(
      `a step of remedy "copy-file-afresh" says "${word}" - list ${hazard} under "involves" and give the step its caution`,
    );
  });

  it('asks for nothing where no word of it is used', () => {
    const harmless = 'Read the thousandth line of the file and note the sandbox that it names.';
    expect(
      faultsWith('copy-file-afresh', (entry) =>
        entry.replace('    steps:\n', `    steps:\n      - do: ${harmless}\n`),
      ),
    ).toEqual([]);
  });
});

describe('a check without its caution', () => {
  const withoutCautions = (entry: string) => entry.replace(/^ +cautions: .*\n/m, '');

  it.each([
    ['strand-curls-to-side', 'needs a machine that is hot and carries no caution for heat'],
    ['only-one-spool', 'needs a machine that is printing and carries no caution for moving-parts or heat'],
    ['connector-scorched', 'says "open the cover" and carries no caution for mains'],
    ['fault-follows-motor-lead', 'needs a machine that is opened and carries no caution for mains or moving-parts or heat'],
    ['snap-test-splits-along-layers', 'breaks a part and carries no caution for moving-parts'],
    ['washed-plate-holds', 'says "hot water" and carries no caution for hot-water'],
  ])('%s: %s', (id, fault) => {
    const faults = faultsWith(id, withoutCautions).map((one) => one.split(' - ')[0]);
    expect(faults).toContain(`the check of "${id}" ${fault}`);
  });
});
