import { describe, expect, it } from 'vitest';
import type { OpenCase } from '../../src-core/contract/bench-view.ts';
import { CASE_STATES } from '../../src-core/contract/case-view.ts';
import { boardOf, countByStatus } from '../../src-renderer/screens/bench/printer-board.ts';
import { statusOfState, turnWords } from '../../src-renderer/wording/status-words.ts';

function openCase(id: string, changes: Partial<OpenCase> = {}): OpenCase {
  return {
    caseId: id,
    number: 1,
    state: 'checking',
    printerId: null,
    complaint: 'Stringing',
    openedAt: '2026-03-02T08:00:00.000Z',
    openedBy: 'RK',
    waitingSince: null,
    reason: null,
    handedTo: null,
    part: null,
    dueOn: null,
    dangerSigns: [],
    timer: null,
    isDemo: false,
    ...changes,
  };
}
const printer = (id: string) => ({ id, label: id, note: '', isDemo: false });

describe('the board of printers', () => {
  it('puts danger first, then trouble, the older first, then what waits, then what runs', () => {
    const board = boardOf({
      printers: ['wren', 'rook', 'heron', 'plover', 'magpie'].map(printer),
      closedCases: 0,
      openCases: [
        openCase('a', { printerId: 'rook', openedAt: '2026-03-02T09:00:00.000Z' }),
        openCase('b', { printerId: 'heron', openedAt: '2026-03-02T08:00:00.000Z' }),
        openCase('c', { printerId: 'plover', state: 'parked', reason: 'nozzle on order' }),
        openCase('d', { printerId: 'magpie', state: 'handed-over', dangerSigns: ['Smoke or burnt smell'] }),
        openCase('e', { printerId: 'gone' }),
        openCase('f'),
      ],
    });
    expect(board.printers.map((one) => [one.label, one.status])).toEqual([
      ['magpie', 'danger'],
      ['heron', 'trouble'],
      ['rook', 'trouble'],
      ['plover', 'waiting'],
      ['wren', 'running'],
    ]);
    expect(board.dangers.map((one) => one.printer)).toEqual(['magpie']);
    expect(board.others.map((one) => one.caseId)).toEqual(['e', 'f']);
    expect(countByStatus(board.printers).map((one) => one.count)).toEqual([1, 2, 1, 1]);
  });

  it('takes the worst of several cases for the state of a printer', () => {
    const board = boardOf({
      printers: [printer('wren')],
      closedCases: 0,
      openCases: [
        openCase('a', { printerId: 'wren', state: 'parked' }),
        openCase('b', { printerId: 'wren' }),
      ],
    });
    expect(board.printers[0]?.status).toBe('trouble');
    expect(board.printers[0]?.cases.map((one) => one.caseId)).toEqual(['b', 'a']);
  });

  it('knows a status and whose turn it is in every state', () => {
    for (const state of CASE_STATES) {
      expect(statusOfState(state)).toBeTruthy();
      expect(turnWords(openCase('a', { state })) === '').toBe(state === 'closed');
    }
    expect(turnWords(openCase('a', { state: 'handed-over' }))).toBe('The lead');
    expect(turnWords(openCase('a', { state: 'checking', dangerSigns: ['Smoke'] }))).toBe(
      'A qualified person',
    );
  });
});
