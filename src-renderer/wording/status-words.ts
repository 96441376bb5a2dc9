import type { ListedState } from '../../src-core/contract/case-view.ts';
import type { OpenCase } from '../../src-core/contract/bench-view.ts';

/** How a printer or a case stands, worst first. Each has a colour, a shape and a word of its own. */
export const STATUSES = ['danger', 'trouble', 'waiting', 'running', 'closed'] as const;
export type Status = (typeof STATUSES)[number];

export const STATUS_WORDS: Readonly<Record<Status, string>> = {
  danger: 'Do not use',
  trouble: 'In trouble',
  waiting: 'Waiting',
  running: 'Running',
  closed: 'Closed',
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
  const operator = openedBy ?? 'Operator';
  if (dangerSigns.length > 0)
    return state === 'make-safe' ? `${operator}: make it safe` : 'A qualified person';
  switch (state) {
    case 'stop-now':
      return `${operator}: answer the danger check`;
    case 'make-safe':
      return `${operator}: make it safe`;
    case 'checking':
      return `${operator}: check`;
    case 'verdict':
      return `${operator}: choose what to do`;
    case 'remedy':
      return `${operator}: carry out the remedy`;
    case 'verification':
      return `${operator}: see whether it worked`;
    case 'closing':
      return `${operator}: close the case`;
    case 'parked':
      return 'Parked';
    case 'handed-over':
      return handedTo ?? 'The lead';
    case 'closed':
      return '';
  }
}
