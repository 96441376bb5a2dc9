import { describe, expect, it } from 'vitest';
import type { CaseEvent, CaseEventKind, Intake } from '../../src-core/contract/case-event.ts';
import { CASE_STATES, type CaseState } from '../../src-core/contract/case-view.ts';
import { createCaseFlow, type CaseMoment } from '../../src-core/session/case-flow.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { inEnglish } from '../../src-core/words/in-english.ts';

const knowledge = shippedKnowledge();
const flow = createCaseFlow(knowledge);
const DANGER = 'smoke-or-burning-smell';
const HARMLESS = 'vapour-at-head';
const [dry = ''] = [...knowledge.remedies.values()]
  .filter((one) => one.removes.some(({ cause }) => cause === 'wet-filament'))
  .map(({ id }) => id);

const intake: Intake = {
  printerId: null,
  spoolId: null,
  openedBy: 'RK',
  conditions: { polymer: 'abs' },
  complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
  words: '',
};

const other = { caseId: '01ARZ3NDEKTSV4RRFFQ69G5FAW', number: 12 };

/** One event of each kind that is not to do with danger; and the two that are. */
const EVENTS = {
  opened: { kind: 'opened', intake },
  'danger-answered': { kind: 'danger-answered', present: [] },
  'made-safe': { kind: 'made-safe' },
  'taken-over': { kind: 'taken-over', by: 'QE' },
  answered: { kind: 'answered', observation: HARMLESS, value: 'none' },
  'could-not-tell': { kind: 'could-not-tell', observation: HARMLESS },
  skipped: { kind: 'skipped', observation: HARMLESS },
  jumped: { kind: 'jumped', observation: HARMLESS },
  'condition-set': { kind: 'condition-set', condition: 'nozzle-mm', value: 0.6 },
  'verdict-asked': { kind: 'verdict-asked' },
  'checking-resumed': { kind: 'checking-resumed' },
  'remedy-chosen': { kind: 'remedy-chosen', remedy: dry },
  'step-ticked': { kind: 'step-ticked', step: 0, isDone: true },
  'timer-set': { kind: 'timer-set', minutes: 240 },
  'timer-stopped': { kind: 'timer-stopped' },
  'remedy-left': { kind: 'remedy-left' },
  'could-not-be-done': { kind: 'could-not-be-done', reason: 'no-part', note: '' },
  'remedy-done': { kind: 'remedy-done' },
  verified: { kind: 'verified', outcome: 'better' },
  closed: {
    kind: 'closed',
    causes: [{ cause: 'wet-filament' }],
    practice: null,
    minutesLost: 0,
    gramsScrapped: 0,
    note: '',
  },
  parked: { kind: 'parked', note: '' },
  'handed-over': { kind: 'handed-over', note: '' },
  resumed: { kind: 'resumed', to: 'where-it-was' },
  noted: { kind: 'noted', text: 'seen' },
  photographed: { kind: 'photographed', photo: 'ab'.repeat(32), note: '' },
  'profile-set': { kind: 'profile-set', profile: 'Fine 0.2' },
  tagged: { kind: 'tagged', on: ['trial'], off: [] },
  reassigned: { kind: 'reassigned', printer: { id: '01ARZ3NDEKTSV4RRFFQ69G5FAV', label: 'Heron' } },
  merged: { kind: 'merged', other },
  'merged-into': { kind: 'merged-into', other },
  parted: { kind: 'parted', other },
  linked: { kind: 'linked', other },
  unlinked: { kind: 'unlinked', other },
} as const satisfies Record<Exclude<CaseEventKind, 'undone'>, CaseEvent>;

const dangerFound: CaseEvent = { kind: 'danger-answered', present: [DANGER] };
const dangerAnswered: CaseEvent = { kind: 'answered', observation: DANGER, value: 'present' };
const cured: CaseEvent = { kind: 'verified', outcome: 'cured' };

function after(...events: CaseEvent[]): CaseMoment {
  return events.reduce((moment, event) => {
    const result = flow.step(moment, event);
    if (!result.ok) throw new Error(inEnglish(result.reason));
    return result.moment;
  }, flow.initial);
}

const { opened, 'danger-answered': safe, 'remedy-chosen': chosen, 'remedy-done': done } = EVENTS;

/** How each state is come to. */
const WAYS: Readonly<Record<CaseState | 'intake', readonly CaseEvent[]>> = {
  intake: [],
  'stop-now': [opened],
  'make-safe': [opened, dangerFound],
  checking: [opened, safe],
  verdict: [opened, safe, EVENTS['verdict-asked']],
  remedy: [opened, safe, chosen],
  verification: [opened, safe, chosen, done],
  closing: [opened, safe, chosen, done, cured],
  closed: [opened, safe, EVENTS.closed],
  parked: [opened, safe, EVENTS.parked],
  'handed-over': [opened, safe, EVENTS['handed-over']],
};

/** Everything that fits, by state, with the state it leads to. What is not named is refused. */
const anywhere = {
  noted: null,
  photographed: null,
  'profile-set': null,
  tagged: null,
  reassigned: null,
  merged: null,
  'merged-into': null,
  parted: null,
  linked: null,
  unlinked: null,
} as const;
const anyOpen = {
  ...anywhere,
  'taken-over': null,
  'condition-set': null,
  parked: 'parked',
  'handed-over': 'handed-over',
} as const;
const GRID: Readonly<Record<CaseState | 'intake', Partial<Record<CaseEventKind, CaseState | null>>>> = {
  intake: { opened: 'stop-now', ...anywhere },
  'stop-now': { ...anyOpen, 'danger-answered': 'checking' },
  'make-safe': { ...anyOpen, 'made-safe': 'checking' },
  checking: {
    ...anyOpen,
    answered: null,
    'could-not-tell': null,
    skipped: null,
    jumped: null,
    'verdict-asked': 'verdict',
    'remedy-chosen': 'remedy',
    closed: 'closed',
  },
  verdict: {
    ...anyOpen,
    'taken-over': 'checking',
    'checking-resumed': 'checking',
    answered: 'checking',
    jumped: 'checking',
    'remedy-chosen': 'remedy',
    closed: 'closed',
  },
  remedy: {
    ...anyOpen,
    answered: null,
    'step-ticked': null,
    'timer-set': null,
    'timer-stopped': null,
    'remedy-left': 'verdict',
    'could-not-be-done': 'verdict',
    'remedy-done': 'verification',
    'remedy-chosen': null,
  },
  verification: {
    ...anyOpen,
    answered: null,
    verified: 'checking',
    'timer-set': null,
    'timer-stopped': null,
    'remedy-left': 'verdict',
    'could-not-be-done': 'verdict',
  },
  closing: { ...anyOpen, closed: 'closed', 'checking-resumed': 'checking' },
  closed: { resumed: 'checking', ...anywhere },
  parked: { resumed: 'checking', ...anywhere },
  'handed-over': { resumed: 'checking', closed: 'closed', ...anywhere },
};

const ALL_STATES = ['intake', ...CASE_STATES] as const;
const OPEN_STATES = CASE_STATES.filter((state) => !['closed', 'parked', 'handed-over'].includes(state));
const RESTING = ['parked', 'handed-over'] as const;

describe('the grid of states and events', () => {
  const cells = ALL_STATES.flatMap((state) => Object.values(EVENTS).map((event) => ({ state, event })));

  it.each(cells)('$state, $event.kind', ({ state, event }) => {
    const before = after(...WAYS[state]);
    expect(before.state).toBe(state);
    const result = flow.step(before, event);
    const leadsTo = GRID[state][event.kind];
    expect(result.ok ? result.moment.state : 'refused').toBe(
      leadsTo === undefined ? 'refused' : (leadsTo ?? state),
    );
    if (!result.ok) expect(inEnglish(result.reason)).toContain(event.kind);
  });

  it.each(OPEN_STATES.flatMap((state) => [dangerFound, dangerAnswered].map((event) => ({ state, event }))))(
    'A8: a danger sign in $state ($event.kind) leads to power off, whoever had taken over',
    ({ state, event }) => {
      const before = after(...WAYS[state], EVENTS['taken-over']);
      const result = flow.step(before, event);
      if (!result.ok) throw new Error(inEnglish(result.reason));
      expect(result.moment.state).toBe('make-safe');
      expect(result.moment.context.findings[DANGER]).toBe('present');
      expect(result.moment.context).toMatchObject({ takenOverBy: null, remedy: null, wanted: null });
      const madeSafe = flow.step(result.moment, EVENTS['made-safe']);
      if (!madeSafe.ok) throw new Error(inEnglish(madeSafe.reason));
      expect(flow.step(madeSafe.moment, chosen).ok).toBe(false);
      const takenOver = flow.step(madeSafe.moment, EVENTS['taken-over']);
      expect(takenOver.ok && flow.step(takenOver.moment, chosen).ok).toBe(true);
    },
  );

  it.each(RESTING)('a danger sign on a case that is %s leads to power off', (state) => {
    const result = flow.step(after(...WAYS[state]), dangerFound);
    expect(result.ok && result.moment.state).toBe('make-safe');
  });

  it.each(OPEN_STATES.flatMap((state) => RESTING.map((rest) => ({ state, rest }))))(
    'what was left in $state, $rest, comes back there with all that was known',
    ({ state, rest }) => {
      const before = after(...WAYS[state]);
      const resting = after(...WAYS[state], EVENTS[rest]);
      // As it comes back from the disk.
      const result = flow.step(JSON.parse(JSON.stringify(resting)) as CaseMoment, EVENTS.resumed);
      expect(result.ok && result.moment).toMatchObject({ state, context: before.context });
    },
  );
});
