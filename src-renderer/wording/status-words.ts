import type { ListedState } from '../../src-core/contract/case-view.ts';
import type { OpenCase } from '../../src-core/contract/bench-view.ts';
import { m } from '../messages/en/status-words.ts';

/** How a printer or a case stands, worst first. Each has a colour, a shape and a word of its own. */
export const STATUSES = ['danger', 'trouble', 'waiting', 'running', 'closed'] as const;
export type Status = (typeof STATUSES)[number];

export const STATUS_WORDS: Readonly<Record<Status, string>> = {
  danger: m.doNotUse(),
  trouble: m.inTrouble(),
  waiting: m.waiting(),
  running: m.running(),
  closed: m.closed(),
};

/** The status that a case's state stands for, danger signs aside. */
export function statusOfState(state: ListedState): Status {
  if (state === 'make-safe') return 'danger';
  if (state === 'closed' || state === 'merged') return 'closed';
  return state === 'parked' || state === 'handed-over' ? 'waiting' : 'trouble';
}

export function statusOf(openCase: Pick<OpenCase, 'state' | 'dangerSigns'>): Status {
  return openCase.dangerSigns.length > 0 ? 'danger' : statusOfState(openCase.state);
}

/** Whose turn it is in a case, and for what. */
export function turnWords({ state, openedBy, dangerSigns, handedTo }: OpenCase): string {
  const operator = openedBy ?? m.operator();
  if (dangerSigns.length > 0)
    return state === 'make-safe' ? m.makeItSafe({ operator }) : m.aQualifiedPerson();
  switch (state) {
    case 'stop-now':
      return m.answerTheDangerCheck({ operator });
    case 'make-safe':
      return m.makeItSafe({ operator });
    case 'checking':
      return m.check({ operator });
    case 'verdict':
      return m.chooseWhatToDo({ operator });
    case 'remedy':
      return m.carryOutTheRemedy({ operator });
    case 'verification':
      return m.seeWhetherItWorked({ operator });
    case 'closing':
      return m.closeTheCase({ operator });
    case 'parked':
      return m.parked();
    case 'handed-over':
      return handedTo ?? m.theLead();
    case 'closed':
      return '';
  }
}
