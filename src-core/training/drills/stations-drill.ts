import type { Random } from '../seeded-random.ts';
import { shuffled, type SetDrill } from './drill-question.ts';

/** A print's stations of the day. Common practice: each makes sense only after the one before. */
const STATIONS = [
  {
    id: 'dry',
    label: 'Dry the spool, or prove that it is dry',
    why: 'Drying takes longest, and a wet spool spoils all that follows.',
  },
  {
    id: 'look',
    label: 'Look over the machine: plate clean, path free, nothing lying in the way',
    why: 'What lies in the way is found while everything is cold and still.',
  },
  {
    id: 'load',
    label: 'Load the filament',
    why: 'Loading heats the hot end, so hands are off the plate by now.',
  },
  {
    id: 'purge',
    label: 'Purge until colour and strand are right',
    why: 'What was in the nozzle before has to be out before the first layer.',
  },
  {
    id: 'watch',
    label: 'Watch the first layer to its end',
    why: 'A first layer that fails is stopped in minutes, not found in the morning.',
  },
  {
    id: 'away',
    label: 'Put the spool away and log it',
    why: 'A spool that stays on the machine takes up water from the next hour on.',
  },
] as const;

/** Six stations in the wrong order. */
export function stationsDrill(random: Random): SetDrill {
  const offered = shuffled(STATIONS, random);
  return {
    task: 'A job with filament that takes up water, from the store to the store. What comes when?',
    facts: [],
    questions: STATIONS.map((station, index) => ({
      id: `place-${index + 1}`,
      label: `Station ${index + 1}`,
      choices: offered.map(({ id, label }) => ({ id, label })),
      right: () => [station.id],
      why: () => station.why,
    })),
  };
}
