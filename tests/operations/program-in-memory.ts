import path from 'node:path';
import { onTestFinished } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { Caller, InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import type { Knowledge } from '../../src-core/knowledge/knowledge.ts';
import type { KnowledgeFile } from '../../src-core/knowledge/schema.ts';
import type { Casebook } from '../../src-main/casebook/casebook.ts';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { PostgresCasebook } from '../../src-main/casebook/postgres/postgres-casebook.ts';
import { createDispatcher, type Dispatcher } from '../../src-main/operations/dispatcher.ts';
import { handlers } from '../../src-main/operations/handlers.ts';
import { reasonerInThisThread, type Reasoner } from '../../src-main/reasoning/reasoner.ts';
import {
  createApplicationContext,
  type ApplicationContext,
} from '../../src-main/operations/application-context.ts';
import { testDatabase } from '../postgres/database.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

export interface TestProgram {
  readonly program: ApplicationContext;
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
    /** The address of a database, for several programs on one casebook. */
    readonly database?: string;
    readonly caller?: Caller;
    /** ISO 8601. */ readonly start?: string;
    readonly engineVersion?: string;
    readonly knowledge?: Knowledge;
    readonly guideFiles?: () => readonly KnowledgeFile[];
    /** Files of other languages than English. */
    readonly languagesFolder?: string;
    /** Puts something between the operations and their reasoner, to count or to hold up. */
    readonly around?: (reasoner: Reasoner) => Reasoner;
  } = {},
): Promise<TestProgram> {
  let nowMs = Date.parse(options.start ?? '2026-03-02T08:00:00.000Z');
  const now = () => new Date(nowMs);
  const casebook = await casebookFor(options, now);
  await casebook.open();
  if (!casebook.isOpen && options.file === undefined) throw new Error(casebook.problem);
  onTestFinished(() => casebook.close());
  const caller = options.caller ?? 'station';
  const knowledge = options.knowledge ?? shippedKnowledge();
  const reasoner = reasonerInThisThread(knowledge);
  const program = createApplicationContext({
    host: caller,
    programVersion: '0.0.0-test',
    engineVersion: options.engineVersion ?? 'test',
    knowledge,
    ...(options.guideFiles && { guideFiles: options.guideFiles }),
    reasoner: options.around ? options.around(reasoner) : reasoner,
    casebook,
    resourcesFolder: path.join(import.meta.dirname, '..', '..', 'resources'),
    ...(options.languagesFolder !== undefined && { languagesFolder: options.languagesFolder }),
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

/** In memory, or, in the run on PostgreSQL, in a database; what names a file is about a file. */
async function casebookFor(
  { file, database }: { readonly file?: string; readonly database?: string },
  now: () => Date,
): Promise<Casebook> {
  if (database !== undefined) return new PostgresCasebook(database, { now, dumpFolder: null });
  if (file === undefined && process.env['BEADWRIGHT_TEST_ENGINE'] === 'postgres')
    return new PostgresCasebook(await testDatabase(), { now, dumpFolder: null });
  return new FileCasebook(file ?? ':memory:', now);
}

/** Logs something about a spool as it stands now. */
export async function logSpool(
  ask: TestProgram['ask'],
  input: Omit<InputOf<'spool:log'>, 'revision'>,
): Promise<OutputOf<'spool:log'>> {
  const { revision } = await ask('spool:read', { spoolId: input.spoolId });
  return ask('spool:log', { ...input, revision });
}

/** Changes the shop's costs as they stand now. */
export async function saveCosts(
  ask: TestProgram['ask'],
  input: Omit<InputOf<'shop:save-costs'>, 'revision'>,
): Promise<OutputOf<'shop:save-costs'>> {
  const { revisions } = await ask('shop:read', {});
  return ask('shop:save-costs', { ...input, revision: revisions.costs });
}
