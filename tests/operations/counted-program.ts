import Database from 'better-sqlite3';
import { onTestFinished, vi } from 'vitest';
import type { CaseEvent, IntakeInput } from '../../src-core/contract/case-event.ts';
import * as reasoning from '../../src-core/session/reason-about.ts';
import type { Reasoner } from '../../src-main/reasoning/reasoner.ts';
import type { TaskName } from '../../src-main/reasoning/tasks.ts';
import { programInMemory } from './program-in-memory.ts';

export const intake: IntakeInput = {
  conditions: { polymer: 'abs' },
  complaints: [{ observation: 'popping-while-loading', value: 'slight' }],
};
export const safe: CaseEvent = { kind: 'danger-answered', present: [] };
export const answer = (observation: string, value: string): CaseEvent => ({
  kind: 'answered',
  observation,
  value,
});
export const note = (text: string): CaseEvent => ({ kind: 'noted', text });

/** A program that counts: trips to the reasoning thread by name, what is reasoned, transactions, and statements. */
export async function counted(options: Parameters<typeof programInMemory>[0] = {}) {
  const trips: TaskName[] = [];
  const counting = (reasoner: Reasoner): Reasoner => ({
    ...reasoner,
    run: (name, ...args) => {
      trips.push(name);
      return reasoner.run(name, ...args);
    },
  });
  const { around = (reasoner) => reasoner } = options;
  const running = await programInMemory({ ...options, around: (reasoner) => counting(around(reasoner)) });
  const reasoned = vi.spyOn(reasoning, 'reasonAbout');
  const ranked = vi.spyOn(reasoning, 'rankCauses');
  const transactions = vi.spyOn(running.program.casebook.db, 'transaction');
  // As they run: the casebook keeps them ready.
  const statement = Object.getPrototypeOf(new Database(':memory:').prepare('select 1')) as Database.Statement;
  const statements = [vi.spyOn(statement, 'all'), vi.spyOn(statement, 'run')];
  onTestFinished(() => {
    vi.restoreAllMocks();
  });
  return {
    ...running,
    /** Statements since the last time this was asked. */
    statements: () => {
      const seen = statements.reduce((sum, { mock }) => sum + mock.calls.length, 0);
      for (const spy of statements) spy.mockClear();
      return seen;
    },
    /** What was counted since the last look. */
    look: () => {
      const seen = {
        trips: trips.splice(0),
        reasoned: reasoned.mock.calls.length + ranked.mock.calls.length,
        transactions: transactions.mock.calls.length,
      };
      reasoned.mockClear();
      ranked.mockClear();
      transactions.mockClear();
      return seen;
    },
  };
}
