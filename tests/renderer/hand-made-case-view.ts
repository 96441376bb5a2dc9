import type { CaseView } from '../../src-core/contract/case-view.ts';

/** A case in the middle of checking, made by hand; `changes` replaces what a test is about. */
export function handMadeCaseView(changes: Partial<CaseView> = {}): CaseView {
  return {
    caseId: '01JE0000000000000000000001',
    number: 7,
    revision: 3,
    state: 'checking',
    openedAt: '2026-03-02T12:00:00.000Z',
    openedBy: 'RK',
    printer: null,
    spool: null,
    complaints: [{ observation: 'stringing', label: 'Stringing', value: 'Heavy' }],
    mainComplaint: 'stringing',
    words: '',
    flowMm3PerS: null,
    conditions: [],
    setAside: [],
    candidates: [],
    background: [],
    stopped: null,
    conflict: { bits: 0, isFlagged: false, suspect: null },
    next: null,
    question: null,
    otherChecks: [],
    remedies: [],
    remedy: null,
    money: null,
    suggestedClosing: { causes: ['wet-filament'], practices: [], minutesSinceOpened: 25 },
    closing: null,
    trail: [],
    canUndo: true,
    dangerSigns: [],
    knowledgeVersion: 'k',
    engineVersion: 'e',
    ...changes,
  };
}
