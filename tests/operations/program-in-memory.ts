import path from 'node:path';
import { onTestFinished } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { Caller, InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import { Casebook } from '../../src-main/casebook/casebook.ts';
import { createDispatcher, type Dispatcher } from '../../src-main/operations/dispatcher.ts';
import { handlers } from '../../src-main/operations/handlers.ts';
import { createProgram, type Program } from '../../src-main/operations/program.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

export interface TestProgram {
  readonly program: Program;
  readonly dispatcher: Dispatcher;
  /** Calls and unwraps; throws the reply's error. */
  ask<N extends CallName>(name: N, input: InputOf<N>): Promise<OutputOf<N>>;
  /** Moves the clock on. */
  pass(minutes: number): void;
}

/** The whole program behind the screens, over a casebook in memory (or a file), with a clock that the test moves. */
export async function programInMemory(
  options: {
    readonly file?: string;
    readonly caller?: Caller;
    /** ISO 8601. */ readonly start?: string;
  } = {},
): Promise<TestProgram> {
  let nowMs = Date.parse(options.start ?? '2026-03-02T08:00:00.000Z');
  const now = () => new Date(nowMs);
  const casebook = new Casebook(options.file ?? ':memory:', now);
  await casebook.open();
  onTestFinished(() => casebook.close());
  const caller = options.caller ?? 'station';
  const program = createProgram({
    host: caller,
    programVersion: '0.0.0-test',
    knowledge: shippedKnowledge(),
    casebook,
    resourcesFolder: path.join(import.meta.dirname, '..', '..', 'resources'),
    now,
  });
  const dispatcher = createDispatcher(program, handlers, caller);
  return {
    program,
    dispatcher,
    ask: async (name, input) => {
      const reply = await dispatcher.call(name, input);
      if (!reply.ok) throw new Error(`${reply.error.code}: ${reply.error.message}`);
      return reply.value;
    },
    pass: (minutes) => (nowMs += minutes * 60_000),
  };
}
