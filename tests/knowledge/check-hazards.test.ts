import { describe, expect, it } from 'vitest';
import { faultsWithChanged } from '../shipped-knowledge.ts';

/** Faults of the shipped guide with one entry's text changed: "message - remedy". */
function faultsWith(id: string, change: (entry: string) => string): string[] {
  let changed = 0;
  const faults = faultsWithChanged(({ text }) =>
    text.replace(new RegExp(`^  - id: ${id}\\n(?:(?!^  - id: ).*\\n)*`, 'm'), (entry) => {
      changed += change(entry) === entry ? 0 : 1;
      return change(entry);
    }),
  );
  expect(changed).toBe(1);
  return faults.map(({ message, remedy }) => `${message} - ${remedy}`);
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
    ['sharp', 'Lift the part with a scraper.', 'scraper'],
    ['sharp', 'Cut the worn tube square.', 'Cut the worn tube'],
    ['sharp', 'Push a needle into the nozzle.', 'needle'],
    ['lifting', 'Move the printer to another table.', 'Move the printer'],
    ['lifting', 'Turn it over with two people.', 'with two people'],
    [
      'battery',
      'Lay a thermometer beside the spool in the dryer.',
      'thermometer beside the spool in the dryer',
    ],
    ['battery', 'Close the chamber with a hygrometer in it.', 'chamber with a hygrometer'],
    ['battery', 'Take the battery out.', 'battery'],
    ['electrostatic', 'Push the plug home at the board.', 'plug home at the board'],
    ['electrostatic', 'Fit the new driver the right way round.', 'Fit the new driver'],
    ['electrostatic', 'Set the jumper.', 'jumper'],
    ['glass', 'Take the glass plate off.', 'glass'],
    ['stored-energy', 'Take the spring out.', 'Take the spring'],
    ['stored-energy', 'Wait until the capacitors are empty.', 'capacitors'],
    ['stored-energy', 'Loosen the clamp of the lead screw.', 'Loosen the clamp of the lead screw'],
    ['stored-energy', 'Hold up the gantry with a block.', 'Hold up the gantry'],
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

  it.each([
    'Read the thousandth line of the file and note the sandbox that it names.',
    'Wear safety glasses, and choose a glass-fibre filament with its glass transition in mind.',
    'Note the spring steel sheet, the dashboard and the screwdriver on the job card.',
    'Read the thermometer on the wall. Note the set value of the chamber.',
    'The fan cuts out when the fan blades are dusty; move the file and read the chamber value.',
  ])('asks for nothing where no word of it is used: %s', (harmless) => {
    const faults = faultsWith('copy-file-afresh', (entry) =>
      entry.replace('    steps:\n', `    steps:\n      - do: ${harmless}\n`),
    );
    expect(faults.filter((fault) => fault.includes('copy-file-afresh'))).toEqual([]);
  });
});

describe('a check without its caution', () => {
  const withoutCautions = (entry: string) => entry.replace(/^ +cautions: .*\n/m, '');

  it.each([
    ['strand-curls-to-side', 'needs a machine that is hot and carries no caution for heat'],
    ['other-card-clean', 'needs a machine that is printing and carries no caution for moving-parts or heat'],
    ['connector-scorched', 'says "open the cover" and carries no caution for mains'],
    [
      'fault-follows-motor-lead',
      'needs a machine that is opened and carries no caution for mains or moving-parts or heat',
    ],
    ['snap-test-splits-along-layers', 'breaks a part and carries no caution for sharp'],
    [
      'fault-follows-motor-lead',
      'says "plugs of two like motors at the board" and carries no caution for electrostatic',
    ],
    ['stuck-too-hard', 'says "spatula" and carries no caution for sharp'],
    ['stuck-too-hard', 'says "glass" and carries no caution for glass'],
    ['washed-plate-holds', 'says "hot water" and carries no caution for hot-water'],
  ])('%s: %s', (id, fault) => {
    const faults = faultsWith(id, withoutCautions).map((one) => one.split(' - ')[0]);
    expect(faults).toContain(`the check of "${id}" ${fault}`);
  });
});
