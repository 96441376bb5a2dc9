import { describe, expect, it } from 'vitest';
import type { CaseEvent, Intake } from '../../src-core/contract/case-event.ts';
import { faultOfEvent } from '../../src-core/session/event-fault.ts';
import { emptyContext } from '../../src-core/session/case-context.ts';
import { knownPartOf } from '../../src-core/session/known-part.ts';
import { eventToday, underTodaysIds } from '../../src-core/session/todays-ids.ts';
import { cause, observation, smallGuide } from '../differential/small-guide.ts';
import { remedyOf } from './small-remedy.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

/** A guide in which everything was once called by a name with "old-" before it, and one thing by two names. */
const guide = smallGuide({
  conditions: [
    {
      id: 'polymer',
      label: 'Polymer',
      ask: 'Which?',
      alsoCalled: [],
      formerly: ['old-polymer'],
      values: ['abs', 'pla'].map((id) => ({ id, label: id, alsoCalled: [], formerly: [`old-${id}`] })),
    },
    {
      id: 'nozzle-mm',
      label: 'Nozzle size',
      ask: 'How wide?',
      alsoCalled: [],
      formerly: ['old-nozzle-mm'],
      number: { unit: 'mm', min: 0.1, max: 2 },
    },
  ],
  practices: [
    { id: 'never-dried', label: 'Never dried', formerly: ['old-never-dried'], habit: 'a', better: 'b' },
  ],
  observations: [
    observation('pops', 0.05, 1, { formerly: ['old-pops', 'older-pops'] }),
    observation('smells', 0.05, 1, { formerly: ['old-smells'], danger: true }),
  ],
  causes: [cause('wet', { pops: 0.9 }, { formerly: ['old-wet'] })],
  remedies: [remedyOf('dry', { wet: 0.9 }, { formerly: ['old-dry'] })],
});

const intake: Intake = {
  printerId: null,
  spoolId: null,
  openedBy: 'RK',
  conditions: { 'old-polymer': 'old-abs', 'old-nozzle-mm': 0.6 },
  because: { 'old-polymer': 'The spool says so.' },
  complaints: [{ observation: 'old-pops', value: 'present' }],
  measured: [{ observation: 'old-smells', value: 'absent' }],
  tried: [{ remedy: 'old-dry', outcome: 'not-cured' }],
  words: 'old-pops all day',
};

/** Every kind of entry that names something of the guide, in the old names and in today's. */
const ENTRIES: readonly (readonly [CaseEvent, CaseEvent])[] = [
  [
    { kind: 'opened', intake },
    {
      kind: 'opened',
      intake: {
        ...intake,
        conditions: { polymer: 'abs', 'nozzle-mm': 0.6 },
        because: { polymer: 'The spool says so.' },
        complaints: [{ observation: 'pops', value: 'present' }],
        measured: [{ observation: 'smells', value: 'absent' }],
        tried: [{ remedy: 'dry', outcome: 'not-cured' }],
      },
    },
  ],
  [
    { kind: 'danger-answered', present: ['old-smells'] },
    { kind: 'danger-answered', present: ['smells'] },
  ],
  [
    { kind: 'answered', observation: 'older-pops', value: 'absent' },
    { kind: 'answered', observation: 'pops', value: 'absent' },
  ],
  [
    { kind: 'could-not-tell', observation: 'old-pops' },
    { kind: 'could-not-tell', observation: 'pops' },
  ],
  [
    { kind: 'skipped', observation: 'old-pops' },
    { kind: 'skipped', observation: 'pops' },
  ],
  [
    { kind: 'jumped', observation: 'old-pops' },
    { kind: 'jumped', observation: 'pops' },
  ],
  [
    { kind: 'condition-set', condition: 'old-polymer', value: 'old-pla' },
    { kind: 'condition-set', condition: 'polymer', value: 'pla' },
  ],
  [
    { kind: 'condition-set', condition: 'old-nozzle-mm', value: 0.4 },
    { kind: 'condition-set', condition: 'nozzle-mm', value: 0.4 },
  ],
  [
    { kind: 'condition-set', condition: 'old-polymer', value: null },
    { kind: 'condition-set', condition: 'polymer', value: null },
  ],
  [
    { kind: 'remedy-chosen', remedy: 'old-dry' },
    { kind: 'remedy-chosen', remedy: 'dry' },
  ],
  [
    {
      kind: 'closed',
      causes: [{ cause: 'old-wet' }, { named: 'old-wet' }],
      practice: 'old-never-dried',
      minutesLost: 5,
      gramsScrapped: 1,
      note: 'old-wet',
    },
    {
      kind: 'closed',
      // What somebody wrote in his own words stays as he wrote it.
      causes: [{ cause: 'wet' }, { named: 'old-wet' }],
      practice: 'never-dried',
      minutesLost: 5,
      gramsScrapped: 1,
      note: 'old-wet',
    },
  ],
];

describe('an entry made under an earlier guide', () => {
  it.each(ENTRIES)('reads in today’s names: %j', (old, today) =>
    expect(eventToday(guide, old)).toEqual(today),
  );

  it.each(ENTRIES)(
    'says nothing that today’s guide does not know, then, so nothing of it is lost: %j',
    (old) => {
      const today = eventToday(guide, old);
      expect(faultOfEvent(guide, emptyContext, today)).toBeNull();
      expect(knownPartOf(guide, today)).toEqual({ known: today, lost: null });
    },
  );

  it.each(ENTRIES)('made under today’s guide stays as it is: %j', (_, today) =>
    expect(eventToday(guide, today)).toEqual(today),
  );

  it('keeps the first said where two old names are one today', () => {
    const given = {
      conditions: {},
      findings: { 'old-pops': 'present', 'older-pops': 'absent', smells: 'absent' },
      tried: [{ remedy: 'old-dry' }],
    };
    expect(underTodaysIds(guide, given)).toEqual({
      conditions: {},
      findings: { pops: 'present', smells: 'absent' },
      tried: [{ remedy: 'dry' }],
    });
  });
});

describe('what today’s guide does not know of an entry', () => {
  const opened = (part: Partial<Intake>): CaseEvent => ({
    kind: 'opened',
    intake: { ...intake, conditions: {}, complaints: [], measured: [], tried: [], ...part },
  });

  it('is left out of an opening, each thing by itself, and said', () => {
    const { known, lost } = knownPartOf(
      guide,
      opened({
        conditions: { polymer: 'abs', climate: 'wet', 'nozzle-mm': 9 },
        complaints: [
          { observation: 'pops', value: 'present' },
          { observation: 'hisses', value: 'present' },
          { observation: 'pops', value: 'green' },
        ],
        measured: [{ observation: 'weight', value: 3 }],
        tried: [
          { remedy: 'dry', outcome: 'better' },
          { remedy: 'wash', outcome: 'better' },
        ],
      }),
    );
    expect(known).toEqual(
      opened({
        conditions: { polymer: 'abs' },
        complaints: [{ observation: 'pops', value: 'present' }],
        tried: [{ remedy: 'dry', outcome: 'better' }],
      }),
    );
    for (const name of ['climate', 'nozzle-mm', 'hisses', 'green', 'weight', 'wash'])
      expect(inEnglish(lost ?? [])).toContain(`"${name}"`);
  });

  it('never takes a danger sign away', () => {
    const event: CaseEvent = { kind: 'danger-answered', present: ['smoke-rising', 'smells'] };
    expect(knownPartOf(guide, event).known).toEqual(event);
    expect(inEnglish(knownPartOf(guide, event).lost ?? [])).toContain('"smoke-rising"');
  });

  it('leaves a confirmed cause what was confirmed, in words, and lets an unknown habit go', () => {
    const closed: CaseEvent = {
      kind: 'closed',
      causes: [{ cause: 'cosmic-rays' }, { cause: 'wet' }, { named: 'A cat' }],
      practice: 'never-swept',
      minutesLost: 0,
      gramsScrapped: 0,
      note: '',
    };
    const { known, lost } = knownPartOf(guide, closed);
    expect(known).toEqual({
      ...closed,
      causes: [{ named: 'cosmic-rays' }, { cause: 'wet' }, { named: 'A cat' }],
      practice: null,
    });
    expect(inEnglish(lost ?? [])).toContain('"cosmic-rays"');
    expect(inEnglish(lost ?? [])).toContain('"never-swept"');
  });
});

describe('an entry that names what is not there is refused, with the nearest name', () => {
  it.each<[CaseEvent, string]>([
    [{ kind: 'answered', observation: 'popps', value: 'present' }, 'did you mean "pops"?'],
    [{ kind: 'answered', observation: 'pops', value: 'presnt' }, 'did you mean "present"?'],
    [{ kind: 'skipped', observation: 'popps' }, 'did you mean "pops"?'],
    [{ kind: 'jumped', observation: 'popps' }, 'did you mean "pops"?'],
    [{ kind: 'could-not-tell', observation: 'popps' }, 'did you mean "pops"?'],
    [{ kind: 'danger-answered', present: ['smells', 'smels'] }, 'did you mean "smells"?'],
    [{ kind: 'condition-set', condition: 'polymr', value: 'abs' }, 'did you mean "polymer"?'],
    [{ kind: 'condition-set', condition: 'polymr', value: null }, 'did you mean "polymer"?'],
    [{ kind: 'condition-set', condition: 'polymer', value: 'abss' }, 'did you mean "abs"?'],
    [{ kind: 'condition-set', condition: 'nozzle-mm', value: 2.1 }, 'between 0.1 and 2 mm'],
    [{ kind: 'remedy-chosen', remedy: 'dri' }, 'did you mean "dry"?'],
    [
      {
        kind: 'opened',
        intake: {
          ...intake,
          conditions: {},
          measured: [],
          complaints: [{ observation: 'pops', value: 'present' }],
          tried: [{ remedy: 'dri', outcome: 'better' }],
        },
      },
      'did you mean "dry"?',
    ],
    [
      {
        kind: 'closed',
        causes: [{ cause: 'wett' }],
        practice: null,
        minutesLost: 0,
        gramsScrapped: 0,
        note: '',
      },
      'did you mean "wet"?',
    ],
    [
      {
        kind: 'closed',
        causes: [{ cause: 'wet' }],
        practice: 'never-dryed',
        minutesLost: 0,
        gramsScrapped: 0,
        note: '',
      },
      'did you mean "never-dried"?',
    ],
  ])('%j', (event, says) =>
    expect(inEnglish(faultOfEvent(guide, emptyContext, event) ?? [])).toContain(says),
  );
});
