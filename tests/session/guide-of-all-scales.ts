import { cause, observation, smallGuide } from '../differential/small-guide.ts';

const GRADES = ['none', 'slight', 'heavy'].map((id) => ({ id, label: id }));
/** The normal band lies in the middle, as it mostly does: bands are no order of magnitude. */
export const BANDS = [
  { id: 'right', label: 'Right', from: 20, below: 60 },
  { id: 'low', label: 'Low', below: 20 },
  { id: 'high', label: 'High', from: 60 },
];
const facetTable = (id: string, saidBy?: { condition: string; values: string[] }) => ({
  id,
  given: { 'sits.spool': 0.8 },
  otherwise: 0.02,
  notStated: 0.2,
  source: 'estimate',
  ...(saidBy && { saidBy }),
});
const pattern = (id: string, group: 'course' | 'place') =>
  observation(id, 0.02, 1, { kind: 'pattern', complaint: false, group });

/** Yes or no, grades, bands, statements of a form, and what says little: a guide with one of each. */
export const guide = smallGuide({
  conditions: [
    {
      id: 'nozzle-mm',
      label: 'Nozzle',
      ask: '?',
      alsoCalled: [],
      formerly: [],
      number: { unit: 'mm', min: 0.1, max: 2 },
    },
    {
      id: 'last-change',
      label: 'Last change',
      ask: '?',
      alsoCalled: [],
      formerly: [],
      values: ['spool', 'nozzle'].map((id) => ({ id, label: id, alsoCalled: [], formerly: [] })),
    },
  ],
  observations: [
    observation('pops', 0.05, 1),
    observation('strings', 0.05, 1, {
      grades: GRADES,
      leak: { strength: { slight: 0.05 }, source: 'estimate' },
    }),
    observation('grip', 0.02, 1, {
      kind: 'measurement',
      complaint: false,
      measure: { quantity: 'Force', unit: 'N', min: 0, max: 100, bands: BANDS },
      leak: { strength: { low: 0.02 }, source: 'estimate' },
    }),
    observation('ugly', 0.05, 1, { unspecific: true }),
    pattern('one-side', 'place'),
    pattern('one-corner', 'place'),
    pattern('after-an-hour', 'course'),
    observation('began-with-spool', 0.02, 1, { kind: 'pattern', complaint: false, group: 'course' }),
  ],
  causes: [
    cause('wet', { pops: 0.9, ugly: 0.5 }, { facets: { sits: ['spool'] } }),
    {
      ...cause('slack', {}),
      shows: [
        { to: 'strings', strength: { slight: 0.7, heavy: 0.3 }, source: 'estimate' },
        { to: 'grip', strength: { low: 0.8 }, source: 'estimate' },
      ],
    },
  ],
  facetTables: [
    facetTable('one-side'),
    facetTable('one-corner'),
    facetTable('after-an-hour'),
    facetTable('began-with-spool', { condition: 'last-change', values: ['spool'] }),
  ],
});
