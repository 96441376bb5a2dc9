import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CaseEvent, Intake } from '../../src-core/contract/case-event.ts';
import { conditionValueLabel, confirmedCauseLabel, valueLabel } from '../../src-core/session/wording.ts';
import { eventWords } from '../../src-core/session/event-words.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';
import { inSentence } from '../../src-core/words/in-sentence.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';

const guide = smallGuide({
  conditions: [
    {
      id: 'nozzle-mm',
      label: 'Nozzle size',
      ask: '?',
      alsoCalled: [],
      formerly: [],
      number: { unit: 'mm', min: 0.1, max: 2 },
    },
    {
      id: 'polymer',
      label: 'Polymer',
      ask: '?',
      alsoCalled: [],
      formerly: [],
      values: [{ id: 'abs', label: 'ABS', alsoCalled: [], formerly: [] }],
    },
  ],
  observations: [
    observation('pops-id', 0.05, 1, { label: 'Pops while loading' }),
    observation('strings-id', 0.05, 1, {
      label: 'Strings',
      grades: [
        { id: 'none', label: 'None' },
        { id: 'slight', label: 'A few' },
        { id: 'heavy', label: 'Many' },
      ],
      leak: { strength: { slight: 0.05 }, source: 'estimate' },
    }),
    observation('width-id', 0.02, 1, {
      label: 'Filament width',
      kind: 'measurement',
      measure: {
        quantity: 'Width',
        unit: 'mm',
        min: 1,
        max: 3,
        bands: [
          { id: 'right', label: 'Right', from: 1.7, below: 1.8 },
          { id: 'thin', label: 'Thin', below: 1.7 },
          { id: 'thick', label: 'Thick', from: 1.8 },
        ],
      },
      leak: { strength: { thin: 0.02 }, source: 'estimate' },
    }),
  ],
  causes: [cause('wet-id', { 'pops-id': 0.9 }, { label: 'Wet filament' })],
  remedies: [remedyOf('dry-id', { 'wet-id': 0.9 }, { label: 'Dry the filament' })],
});

describe('a finding as people say it', () => {
  it.each([
    ['width-id', 1.62, '1.62 mm (thin)'],
    ['width-id', 1.7, '1.7 mm (right)'],
    ['width-id', 1.8, '1.8 mm (thick)'],
    ['width-id', 'thin', 'Thin'],
    ['strings-id', 'heavy', 'Many'],
    ['pops-id', 'present', 'Present'],
    ['pops-id', 'absent', 'Absent'],
    // Of an earlier guide: as it was written.
    ['gone-id', 3, '3'],
    ['gone-id', 'purple', 'purple'],
  ])('%s %s: %s', (id, value, said) => expect(inEnglish(valueLabel(guide, id, value))).toBe(said));

  it.each([
    ['nozzle-mm', 0.6, '0.6 mm'],
    ['polymer', 'abs', 'ABS'],
    ['polymer', 'wood', 'wood'],
    ['gone', 'x', 'x'],
  ])('circumstance %s %s: %s', (id, value, said) =>
    expect(inEnglish(conditionValueLabel(guide, id, value))).toBe(said),
  );

  it('names a cause by its label, and one of the lead’s own in his words', () => {
    expect(confirmedCauseLabel(guide, { cause: 'wet-id' })).toBe('Wet filament');
    expect(confirmedCauseLabel(guide, { named: 'wet-id' })).toBe('wet-id');
  });
});

describe('a label inside a sentence', () => {
  it.each([
    ['Not cured', 'not cured'],
    ['PLA', 'PLA'],
    ['PA 6', 'PA 6'],
    ['X', 'x'],
    ['-20 °C', '-20 °C'],
    ['', ''],
    ['already small', 'already small'],
  ])('%s: %s', (label, said) => expect(inSentence(label)).toBe(said));

  it('loses nothing but the size of its first letter', () =>
    fc.assert(
      fc.property(fc.string(), (label) => {
        expect(inSentence(label).toLowerCase()).toBe(label.toLowerCase());
        expect(inSentence(inSentence(label))).toBe(inSentence(label));
      }),
    ));
});

const intake: Intake = {
  printerId: null,
  spoolId: null,
  openedBy: null,
  conditions: {},
  complaints: [
    { observation: 'pops-id', value: 'present' },
    { observation: 'strings-id', value: 'heavy' },
  ],
  measured: [{ observation: 'width-id', value: 1.62 }],
  tried: [{ remedy: 'dry-id', outcome: 'not-cured' }],
  words: '',
};
const rests = { note: 'end of shift', part: 'a 0.6 nozzle', dueOn: '2026-12-03' };

const other = { caseId: '01ARZ3NDEKTSV4RRFFQ69G5FAW', number: 12 };

/** One entry of every kind that there is, with the line that the trail shows. */
const LINES: Readonly<Record<CaseEvent['kind'], readonly (readonly [CaseEvent, string])[]>> = {
  opened: [
    [
      { kind: 'opened', intake },
      'Pops while loading: present; Strings: many; Filament width: 1.62 mm (thin); Tried before: Dry the filament, not cured',
    ],
  ],
  'danger-answered': [
    [{ kind: 'danger-answered', present: [] }, 'No sign of danger'],
    [{ kind: 'danger-answered', present: ['pops-id', 'gone-id'] }, 'Danger: Pops while loading and gone-id'],
  ],
  'made-safe': [[{ kind: 'made-safe' }, 'Power off, made safe']],
  'taken-over': [[{ kind: 'taken-over', by: 'QE' }, 'Qualified person took over: QE']],
  answered: [[{ kind: 'answered', observation: 'strings-id', value: 'slight' }, 'Strings: a few']],
  'could-not-tell': [
    [{ kind: 'could-not-tell', observation: 'pops-id' }, 'Pops while loading: could not tell'],
  ],
  skipped: [[{ kind: 'skipped', observation: 'pops-id' }, 'Pops while loading: skipped']],
  jumped: [[{ kind: 'jumped', observation: 'pops-id' }, 'Asked to check: Pops while loading']],
  'condition-set': [
    [{ kind: 'condition-set', condition: 'nozzle-mm', value: 0.6 }, 'Nozzle size: 0.6 mm'],
    [{ kind: 'condition-set', condition: 'polymer', value: null }, 'Polymer: not known'],
    [{ kind: 'condition-set', condition: 'gone', value: 'x' }, 'gone: x'],
  ],
  'verdict-asked': [[{ kind: 'verdict-asked' }, 'Asked what to do']],
  'checking-resumed': [[{ kind: 'checking-resumed' }, 'Back to checking']],
  'remedy-chosen': [[{ kind: 'remedy-chosen', remedy: 'dry-id' }, 'Remedy: Dry the filament']],
  // People count steps from one.
  'step-ticked': [
    [{ kind: 'step-ticked', step: 0, isDone: true }, 'Step 1 done'],
    [{ kind: 'step-ticked', step: 4, isDone: false }, 'Step 5 not done'],
  ],
  'timer-set': [
    [{ kind: 'timer-set', minutes: 480 }, 'Timer set: 8 h'],
    [{ kind: 'timer-set', minutes: 95 }, 'Timer set: 1 h 35 min'],
  ],
  'timer-stopped': [[{ kind: 'timer-stopped' }, 'Timer stopped']],
  'remedy-left': [[{ kind: 'remedy-left' }, 'Remedy left, not carried out']],
  'could-not-be-done': [
    [{ kind: 'could-not-be-done', reason: 'no-part', note: '' }, 'Could not be done: the part is not here'],
    [
      { kind: 'could-not-be-done', reason: 'other', note: 'key is lost' },
      'Could not be done: another reason (key is lost)',
    ],
  ],
  'remedy-done': [[{ kind: 'remedy-done' }, 'Remedy carried out']],
  verified: [[{ kind: 'verified', outcome: 'came-back' }, 'Came back after a while']],
  closed: [
    [
      {
        kind: 'closed',
        causes: [{ cause: 'wet-id' }, { named: 'a cat' }],
        practice: null,
        minutesLost: 0,
        gramsScrapped: 0,
        note: '',
      },
      'Closed: Wet filament and a cat',
    ],
  ],
  parked: [
    [{ kind: 'parked', ...rests }, 'Parked until 3 Dec 2026, waits for a 0.6 nozzle: end of shift'],
    [{ kind: 'parked', note: '' }, 'Parked'],
    [{ kind: 'parked', note: '', part: 'a tube' }, 'Parked, waits for a tube'],
  ],
  'handed-over': [
    [{ kind: 'handed-over', note: 'see photo' }, 'Handed to the lead: see photo'],
    [{ kind: 'handed-over', note: '', to: 'RK', dueOn: '2026-12-03' }, 'Handed to RK until 3 Dec 2026'],
  ],
  resumed: [[{ kind: 'resumed' }, 'Reopened']],
  noted: [[{ kind: 'noted', text: 'New batch.' }, 'Note: New batch.']],
  tagged: [
    [{ kind: 'tagged', on: ['trial', 'Monday'], off: [] }, 'Tag: trial and Monday'],
    [{ kind: 'tagged', on: ['Monday'], off: ['monday'] }, 'Tag taken off: monday; put on: Monday'],
  ],
  'profile-set': [
    [{ kind: 'profile-set', profile: 'Fine 0.2' }, 'Profile: Fine 0.2'],
    [{ kind: 'profile-set', profile: null }, 'Profile: not known'],
  ],
  reassigned: [
    [
      { kind: 'reassigned', printer: { id: '01ARZ3NDEKTSV4RRFFQ69G5FAV', label: 'Heron' } },
      'Put right: printer Heron',
    ],
    [
      {
        kind: 'reassigned',
        printer: null,
        spool: { id: '01ARZ3NDEKTSV4RRFFQ69G5FAX', label: 'PLA grey' },
      },
      'Put right: printer not known and spool PLA grey',
    ],
  ],
  merged: [[{ kind: 'merged', other }, 'Case 12 was the same trouble: merged into this one']],
  'merged-into': [[{ kind: 'merged-into', other }, 'The same trouble as case 12: merged into it']],
  parted: [[{ kind: 'parted', other }, 'Not the same as case 12 after all: two cases again']],
  linked: [[{ kind: 'linked', other }, 'Came from case 12']],
  unlinked: [[{ kind: 'unlinked', other }, 'Did not come from case 12 after all']],
  photographed: [
    [{ kind: 'photographed', photo: 'a'.repeat(64), note: '' }, 'Photo'],
    [{ kind: 'photographed', photo: 'a'.repeat(64), note: 'gear' }, 'Photo: gear'],
  ],
  undone: [[{ kind: 'undone' }, 'Last entry undone']],
};

it.each(Object.values(LINES).flat())('the trail says of %j: %s', (event, line) =>
  expect(inEnglish(eventWords(guide, event))).toBe(line),
);

it('no two outcomes of a remedy, and no two reasons why it could not be done, read alike', () => {
  const outcomes = (['cured', 'better', 'partly', 'came-back', 'not-cured', 'worse'] as const).map(
    (outcome) => inEnglish(eventWords(guide, { kind: 'verified', outcome })),
  );
  const reasons = (['no-part', 'no-tool', 'not-allowed', 'not-reachable', 'no-time', 'other'] as const).map(
    (reason) => inEnglish(eventWords(guide, { kind: 'could-not-be-done', reason, note: '' })),
  );
  expect(new Set([...outcomes, ...reasons]).size).toBe(12);
});
