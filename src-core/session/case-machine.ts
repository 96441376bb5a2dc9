import { assign, not, setup } from 'xstate';
import type { CaseEvent } from '../contract/case-event.ts';
import * as change from './case-changes.ts';
import { emptyContext, type CaseContext } from './case-context.ts';

export { emptyContext, type CaseContext } from './case-context.ts';

/** The machine's events: a case event with its kind as the type, since XState tells events apart by `type`. */
export type MachineEvent = {
  [K in CaseEvent['kind']]: { type: K; event: Extract<CaseEvent, { kind: K }> };
}[CaseEvent['kind']];

export function machineEvent(event: CaseEvent): MachineEvent {
  return { type: event.kind, event } as MachineEvent;
}

type Finding = { readonly observation: string; readonly value: string | number };

/**
 * The flow of one case. `dangerIds` are the observations that mean "power off first".
 * No timers, no effects: a pure function of the events, run beside the casebook.
 *
 * What can happen to any open case stands on `open`, so that no state can forget it: a danger sign, somebody qualified who
 * takes over, a circumstance, parking, handing over. A case that rested comes back to where it was.
 */
export function createCaseMachine(dangerIds: ReadonlySet<string>) {
  const isDangerous = ({ observation, value }: Finding) =>
    dangerIds.has(observation) && value !== 'absent' && value !== 'none';

  return setup({
    types: { context: {} as CaseContext, events: {} as MachineEvent },
    guards: {
      complaintIsDangerous: ({ event }) =>
        event.type === 'opened' &&
        [...event.event.intake.complaints, ...(event.event.intake.measured ?? [])].some(isDangerous),
      dangerIsPresent: ({ event }) => event.type === 'danger-answered' && event.event.present.length > 0,
      answerIsDangerous: ({ event }) => event.type === 'answered' && isDangerous(event.event),
      /** No danger sign, also none that only an earlier guide knew, or somebody qualified has taken over. */
      isSafe: ({ context: { takenOverBy, findings, dangerSigns } }) =>
        takenOverBy !== null ||
        !Object.entries(findings).some(
          ([observation, value]) =>
            isDangerous({ observation, value }) || (dangerSigns.includes(observation) && value === 'present'),
        ),
      isCured: ({ event }) => event.type === 'verified' && event.event.outcome === 'cured',
      comesBackToWhereItWas: ({ event }) => event.type === 'resumed' && event.event.to === 'where-it-was',
    },
    actions: {
      keep: assign({}),
      open: assign(({ event }) => (event.type === 'opened' ? change.opened(event.event) : {})),
      findSafe: assign(({ context }) => change.foundSafe(context, dangerIds)),
      findDanger: assign(({ context, event }) =>
        event.type === 'danger-answered' ? change.foundDanger(context, event.event) : {},
      ),
      stopWork: assign(change.workStopped),
      takeOver: assign(({ event }) => (event.type === 'taken-over' ? { takenOverBy: event.event.by } : {})),
      recordAnswer: assign(({ context, event }) =>
        event.type === 'answered' ? change.answered(context, event.event) : {},
      ),
      recordNotTellable: assign(({ context, event }) =>
        event.type === 'could-not-tell' ? change.couldNotTell(context, event.event) : {},
      ),
      recordSkip: assign(({ context, event }) =>
        event.type === 'skipped' ? change.skipped(context, event.event) : {},
      ),
      want: assign(({ event }) => (event.type === 'jumped' ? { wanted: event.event.observation } : {})),
      setCondition: assign(({ context, event }) =>
        event.type === 'condition-set' ? change.conditionSet(context, event.event) : {},
      ),
      chooseRemedy: assign(({ event }) =>
        event.type === 'remedy-chosen'
          ? { remedy: { id: event.event.remedy, doneSteps: [] }, wanted: null }
          : {},
      ),
      tickStep: assign(({ context, event }) =>
        event.type === 'step-ticked' ? change.stepTicked(context, event.event) : {},
      ),
      leaveRemedy: assign({ remedy: null }),
      recordNotDoable: assign(({ context, event }) =>
        event.type === 'could-not-be-done' ? change.couldNotBeDone(context, event.event) : {},
      ),
      recordOutcome: assign(({ context, event }) =>
        event.type === 'verified' ? change.verified(context, event.event) : {},
      ),
      close: assign(({ event }) => (event.type === 'closed' ? change.closed(event.event) : {})),
      reassign: assign(({ context, event }) =>
        event.type === 'reassigned' ? change.reassigned(context, event.event) : {},
      ),
      tag: assign(({ context, event }) =>
        event.type === 'tagged' ? change.tagged(context, event.event) : {},
      ),
      setProfile: assign(({ context, event }) =>
        event.type === 'profile-set' ? change.profileSet(context, event.event) : {},
      ),
      merge: assign(({ context, event }) =>
        event.type === 'merged' ? change.merged(context, event.event) : {},
      ),
      mergeInto: assign(({ event }) =>
        event.type === 'merged-into' ? { mergedInto: event.event.other } : {},
      ),
      part: assign(({ context, event }) =>
        event.type === 'parted' ? change.parted(context, event.event) : {},
      ),
      link: assign(({ event }) => (event.type === 'linked' ? { cameFrom: event.event.other } : {})),
      beginNextRound: assign(({ context }) => change.nextRound(context)),
    },
  }).createMachine({
    id: 'case',
    context: emptyContext,
    initial: 'intake',
    // A note or a photo is an entry of the log; nothing follows from it, and it may be made at any time.
    // What ties a case to others, or to another printer, changes nothing of where it stands.
    on: {
      noted: { actions: 'keep' },
      photographed: { actions: 'keep' },
      'profile-set': { actions: 'setProfile' },
      reassigned: { actions: 'reassign' },
      tagged: { actions: 'tag' },
      merged: { actions: 'merge' },
      'merged-into': { actions: 'mergeInto' },
      parted: { actions: 'part' },
      linked: { actions: 'link' },
      unlinked: { actions: assign({ cameFrom: null }) },
    },
    states: {
      intake: {
        on: {
          opened: [
            { guard: 'complaintIsDangerous', target: 'open.make-safe', actions: 'open' },
            { target: 'open.stop-now', actions: 'open' },
          ],
        },
      },
      open: {
        initial: 'stop-now',
        on: {
          'danger-answered': { guard: 'dangerIsPresent', target: '.make-safe', actions: 'findDanger' },
          answered: {
            guard: 'answerIsDangerous',
            target: '.make-safe',
            actions: ['recordAnswer', 'stopWork'],
          },
          'taken-over': { actions: 'takeOver' },
          'condition-set': { actions: 'setCondition' },
          parked: 'parked',
          'handed-over': 'handed-over',
        },
        states: {
          'stop-now': {
            on: {
              'danger-answered': {
                guard: not('dangerIsPresent'),
                target: 'checking',
                actions: 'findSafe',
              },
            },
          },
          'make-safe': { on: { 'made-safe': 'checking' } },
          checking: {
            on: {
              answered: { guard: not('answerIsDangerous'), actions: 'recordAnswer' },
              'could-not-tell': { actions: 'recordNotTellable' },
              skipped: { actions: 'recordSkip' },
              jumped: { guard: 'isSafe', actions: 'want' },
              'verdict-asked': 'verdict',
              'remedy-chosen': { guard: 'isSafe', target: 'remedy', actions: 'chooseRemedy' },
              closed: { target: '#case.closed', actions: 'close' },
            },
          },
          verdict: {
            on: {
              'checking-resumed': 'checking',
              'taken-over': { target: 'checking', actions: 'takeOver' },
              answered: { guard: not('answerIsDangerous'), target: 'checking', actions: 'recordAnswer' },
              jumped: { guard: 'isSafe', target: 'checking', actions: 'want' },
              'remedy-chosen': { guard: 'isSafe', target: 'remedy', actions: 'chooseRemedy' },
              closed: { target: '#case.closed', actions: 'close' },
            },
          },
          remedy: {
            on: {
              answered: { guard: not('answerIsDangerous'), actions: 'recordAnswer' },
              'step-ticked': { actions: 'tickStep' },
              // When a wait is over is read off the log: the flow knows no clock.
              'timer-set': { actions: 'keep' },
              'timer-stopped': { actions: 'keep' },
              'remedy-left': { target: 'verdict', actions: 'leaveRemedy' },
              'could-not-be-done': { target: 'verdict', actions: 'recordNotDoable' },
              'remedy-done': 'verification',
              'remedy-chosen': { actions: 'chooseRemedy' },
            },
          },
          verification: {
            on: {
              answered: { guard: not('answerIsDangerous'), actions: 'recordAnswer' },
              verified: [
                { guard: 'isCured', target: 'closing', actions: 'recordOutcome' },
                { target: 'checking', actions: 'recordOutcome' },
              ],
              'timer-set': { actions: 'keep' },
              'timer-stopped': { actions: 'keep' },
              'remedy-left': { target: 'verdict', actions: 'leaveRemedy' },
              'could-not-be-done': { target: 'verdict', actions: 'recordNotDoable' },
            },
          },
          closing: {
            on: {
              closed: { target: '#case.closed', actions: 'close' },
              'checking-resumed': { target: 'checking', actions: 'beginNextRound' },
            },
          },
          'where-it-was': { type: 'history', history: 'deep' },
        },
      },
      closed: { on: { resumed: { target: 'open.checking', actions: 'beginNextRound' } } },
      parked: {
        on: {
          'danger-answered': { guard: 'dangerIsPresent', target: 'open.make-safe', actions: 'findDanger' },
          resumed: [
            { guard: 'comesBackToWhereItWas', target: 'open.where-it-was' },
            // Entries of before 27 November 2026: a case came back to checking then, whatever was under way.
            { target: 'open.checking', actions: 'leaveRemedy' },
          ],
        },
      },
      'handed-over': {
        on: {
          'danger-answered': { guard: 'dangerIsPresent', target: 'open.make-safe', actions: 'findDanger' },
          resumed: [
            { guard: 'comesBackToWhereItWas', target: 'open.where-it-was' },
            { target: 'open.checking', actions: 'leaveRemedy' },
          ],
          closed: { target: 'closed', actions: 'close' },
        },
      },
    },
  });
}

export type CaseMachine = ReturnType<typeof createCaseMachine>;
