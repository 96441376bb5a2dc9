import { assign, setup } from 'xstate';
import type { CaseEvent, Intake, Outcome } from '../contract/case-event.ts';

type Closed = Extract<CaseEvent, { kind: 'closed' }>;

/** What a case's events add up to. Plain data: it survives JSON unchanged. */
export interface CaseContext {
  readonly intake: Intake | null;
  readonly conditions: Readonly<Record<string, string | number>>;
  /** Observation id to level id or measured number. */
  readonly findings: Readonly<Record<string, string | number>>;
  /** Findings made after remedies were tried: observation id to how many came before it. Others were made before any. */
  readonly seenAfterTries: Readonly<Record<string, number>>;
  /** Tried and could not be told: not asked again by itself. */
  readonly notTellable: readonly string[];
  readonly skipped: readonly string[];
  /** The observation the operator asked for, until it is answered or passed over. */
  readonly wanted: string | null;
  readonly tried: readonly TriedInCase[];
  readonly remedy: { readonly id: string; readonly doneSteps: readonly number[] } | null;
  readonly dangerSigns: readonly string[];
  /** Initials of the qualified person who took over after a danger sign; null while nobody has. */
  readonly takenOverBy: string | null;
  readonly closing: Omit<Closed, 'kind'> | null;
  readonly notes: readonly string[];
}

export interface TriedInCase {
  readonly remedy: string;
  readonly outcome: Outcome;
  /** How well it was carried out; well when left out. */
  readonly done?: 'well' | 'doubtful' | undefined;
}

export const emptyContext: CaseContext = {
  intake: null,
  conditions: {},
  findings: {},
  seenAfterTries: {},
  notTellable: [],
  skipped: [],
  wanted: null,
  tried: [],
  remedy: null,
  dangerSigns: [],
  takenOverBy: null,
  closing: null,
  notes: [],
};

/** The machine's events: a case event with its kind as the type, since XState tells events apart by `type`. */
export type MachineEvent = {
  [K in CaseEvent['kind']]: { type: K; event: Extract<CaseEvent, { kind: K }> };
}[CaseEvent['kind']];

export function machineEvent(event: CaseEvent): MachineEvent {
  return { type: event.kind, event } as MachineEvent;
}

/**
 * The flow of one case. `dangerIds` are the observations that mean "power off first".
 * No timers, no effects: a pure function of the events, run beside the casebook.
 */
export function createCaseMachine(dangerIds: ReadonlySet<string>) {
  const complaintIsDangerous = ({ event }: { event: MachineEvent }) =>
    event.type === 'opened' &&
    [...event.event.intake.complaints, ...(event.event.intake.measured ?? [])].some(
      ({ observation, value }) => dangerIds.has(observation) && value !== 'absent' && value !== 'none',
    );

  return setup({
    types: { context: {} as CaseContext, events: {} as MachineEvent },
    guards: {
      complaintIsDangerous,
      dangerIsPresent: ({ event }) => event.type === 'danger-answered' && event.event.present.length > 0,
      answerIsDangerous: ({ event }) =>
        event.type === 'answered' &&
        dangerIds.has(event.event.observation) &&
        event.event.value !== 'absent' &&
        event.event.value !== 'none',
      /** No danger sign, or somebody qualified has taken over. */
      isSafe: ({ context }) =>
        context.takenOverBy !== null ||
        ![...dangerIds].some((id) => {
          const value = context.findings[id];
          return value !== undefined && value !== 'absent' && value !== 'none';
        }),
      isCured: ({ event }) => event.type === 'verified' && event.event.outcome === 'cured',
    },
    actions: {
      open: assign(({ event }) => {
        if (event.type !== 'opened') return {};
        const { intake } = event.event;
        return {
          intake,
          conditions: { ...intake.conditions },
          tried: [...(intake.tried ?? [])],
          // What was said to be wrong wins over what a file shows of it.
          findings: Object.fromEntries(
            [...(intake.measured ?? []), ...intake.complaints].map(({ observation, value }) => [
              observation,
              value,
            ]),
          ),
        };
      }),
      recordDanger: assign(({ context, event }) => {
        if (event.type !== 'danger-answered') return {};
        const present = event.event.present;
        const answers = [...dangerIds]
          .filter((id) => context.findings[id] === undefined)
          .map((id) => [id, present.includes(id) ? 'present' : 'absent']);
        return { dangerSigns: present, findings: { ...context.findings, ...Object.fromEntries(answers) } };
      }),
      takeOver: assign(({ event }) => (event.type === 'taken-over' ? { takenOverBy: event.event.by } : {})),
      recordAnswer: assign(({ context, event }) => {
        if (event.type !== 'answered') return {};
        const { observation, value } = event.event;
        return {
          findings: { ...context.findings, [observation]: value },
          seenAfterTries: { ...context.seenAfterTries, [observation]: context.tried.length },
          notTellable: context.notTellable.filter((id) => id !== observation),
          skipped: context.skipped.filter((id) => id !== observation),
          wanted: null,
        };
      }),
      recordNotTellable: assign(({ context, event }) => {
        if (event.type !== 'could-not-tell') return {};
        const { observation } = event.event;
        return {
          notTellable: [...context.notTellable.filter((id) => id !== observation), observation],
          wanted: null,
        };
      }),
      recordSkip: assign(({ context, event }) => {
        if (event.type !== 'skipped') return {};
        const { observation } = event.event;
        return {
          skipped: [...context.skipped.filter((id) => id !== observation), observation],
          wanted: null,
        };
      }),
      want: assign(({ event }) => (event.type === 'jumped' ? { wanted: event.event.observation } : {})),
      setCondition: assign(({ context, event }) => {
        if (event.type !== 'condition-set') return {};
        const { condition, value } = event.event;
        const others = Object.fromEntries(
          Object.entries(context.conditions).filter(([id]) => id !== condition),
        );
        return { conditions: value === null ? others : { ...others, [condition]: value } };
      }),
      chooseRemedy: assign(({ event }) =>
        event.type === 'remedy-chosen'
          ? { remedy: { id: event.event.remedy, doneSteps: [] }, wanted: null }
          : {},
      ),
      tickStep: assign(({ context, event }) => {
        if (event.type !== 'step-ticked' || !context.remedy) return {};
        const { step, isDone } = event.event;
        const others = context.remedy.doneSteps.filter((done) => done !== step);
        return { remedy: { ...context.remedy, doneSteps: isDone ? [...others, step] : others } };
      }),
      leaveRemedy: assign({ remedy: null }),
      recordOutcome: assign(({ context, event }) => {
        if (event.type !== 'verified' || !context.remedy) return {};
        return {
          tried: [...context.tried, { remedy: context.remedy.id, outcome: event.event.outcome }],
          remedy: null,
        };
      }),
      close: assign(({ event }) => {
        if (event.type !== 'closed') return {};
        const { causes, practice, minutesLost, gramsScrapped, note } = event.event;
        return { closing: { causes, practice, minutesLost, gramsScrapped, note } };
      }),
      reopen: assign({ closing: null, remedy: null }),
      note: assign(({ context, event }) => {
        const text =
          event.type === 'noted'
            ? event.event.text
            : event.type === 'parked' || event.type === 'handed-over'
              ? event.event.note
              : '';
        return text ? { notes: [...context.notes, text] } : {};
      }),
    },
  }).createMachine({
    id: 'case',
    context: emptyContext,
    initial: 'intake',
    on: { noted: { actions: 'note' } },
    states: {
      intake: {
        on: {
          opened: [
            { guard: 'complaintIsDangerous', target: 'make-safe', actions: 'open' },
            { target: 'stop-now', actions: 'open' },
          ],
        },
      },
      'stop-now': {
        on: {
          'danger-answered': [
            { guard: 'dangerIsPresent', target: 'make-safe', actions: 'recordDanger' },
            { target: 'checking', actions: 'recordDanger' },
          ],
          'condition-set': { actions: 'setCondition' },
        },
      },
      'make-safe': { on: { 'made-safe': 'checking' } },
      checking: {
        on: {
          answered: [
            { guard: 'answerIsDangerous', target: 'make-safe', actions: 'recordAnswer' },
            { actions: 'recordAnswer' },
          ],
          'could-not-tell': { actions: 'recordNotTellable' },
          skipped: { actions: 'recordSkip' },
          jumped: { guard: 'isSafe', actions: 'want' },
          'condition-set': { actions: 'setCondition' },
          'taken-over': { actions: 'takeOver' },
          'verdict-asked': 'verdict',
          'remedy-chosen': { guard: 'isSafe', target: 'remedy', actions: 'chooseRemedy' },
          closed: { target: 'closed', actions: 'close' },
          parked: { target: 'parked', actions: 'note' },
          'handed-over': { target: 'handed-over', actions: 'note' },
        },
      },
      verdict: {
        on: {
          'checking-resumed': 'checking',
          'taken-over': { target: 'checking', actions: 'takeOver' },
          answered: [
            { guard: 'answerIsDangerous', target: 'make-safe', actions: 'recordAnswer' },
            { target: 'checking', actions: 'recordAnswer' },
          ],
          jumped: { guard: 'isSafe', target: 'checking', actions: 'want' },
          'condition-set': { actions: 'setCondition' },
          'remedy-chosen': { guard: 'isSafe', target: 'remedy', actions: 'chooseRemedy' },
          closed: { target: 'closed', actions: 'close' },
          parked: { target: 'parked', actions: 'note' },
          'handed-over': { target: 'handed-over', actions: 'note' },
        },
      },
      remedy: {
        on: {
          'step-ticked': { actions: 'tickStep' },
          'remedy-left': { target: 'verdict', actions: 'leaveRemedy' },
          'remedy-done': 'verification',
          'remedy-chosen': { actions: 'chooseRemedy' },
          parked: { target: 'parked', actions: 'note' },
          'handed-over': { target: 'handed-over', actions: 'note' },
        },
      },
      verification: {
        on: {
          verified: [
            { guard: 'isCured', target: 'closing', actions: 'recordOutcome' },
            { target: 'checking', actions: 'recordOutcome' },
          ],
          'remedy-left': { target: 'verdict', actions: 'leaveRemedy' },
          parked: { target: 'parked', actions: 'note' },
          'handed-over': { target: 'handed-over', actions: 'note' },
        },
      },
      closing: {
        on: {
          closed: { target: 'closed', actions: 'close' },
          'checking-resumed': 'checking',
          parked: { target: 'parked', actions: 'note' },
          'handed-over': { target: 'handed-over', actions: 'note' },
        },
      },
      closed: { on: { resumed: { target: 'checking', actions: 'reopen' } } },
      parked: { on: { resumed: { target: 'checking', actions: 'reopen' } } },
      'handed-over': {
        on: {
          resumed: { target: 'checking', actions: 'reopen' },
          closed: { target: 'closed', actions: 'close' },
        },
      },
    },
  });
}

export type CaseMachine = ReturnType<typeof createCaseMachine>;
