import { z } from 'zod';
import { CALL_NAMES, type CallName } from '../../src-core/contract/call-names.ts';
import {
  calls,
  type Caller,
  type InputOf,
  type OutputOf,
  type ParsedInputOf,
} from '../../src-core/contract/calls.ts';
import { callRoles, mayCall } from '../../src-core/contract/call-roles.ts';
import { changeBy, changeToCome } from '../../src-core/contract/change.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import type { Role } from '../../src-core/contract/roles.ts';
import type { Message } from '../../src-core/words/message.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { auditCall } from './access/audit.ts';
import { OWNER, type Visitor } from './access/visitor.ts';
import type { ApplicationContext } from './application-context.ts';
import { failedReply } from './failed-reply.ts';
import { faultOfContract } from './fault-words.ts';
import { DomainError } from './domain-error.ts';

export type Handler<N extends CallName> = (
  program: ApplicationContext,
  input: ParsedInputOf<N>,
  by: Visitor,
) => Promise<OutputOf<N>> | OutputOf<N>;
export type Handlers = { readonly [N in CallName]: Handler<N> };

/** Calls that work while the casebook does not: they show what is wrong and lead back. */
const WITHOUT_CASEBOOK: ReadonlySet<CallName> = new Set([
  'host:info',
  'guide:read',
  'guide:cause',
  'guide:observation',
  'guide:statements',
  'flow:sheet',
  'fit:materials',
  'backup:list',
  'backup:restore',
  'casebook:begin-empty',
  'training:view',
  'network:read',
]);

export interface Dispatcher {
  /** For callers whose input is not yet trusted: name, rights and input are checked here, and only here. */
  dispatch(name: unknown, input: unknown, by?: Visitor): Promise<Reply<unknown>>;
  /** The same, typed, for the command line and tests. */
  call<N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>>;
}

/**
 * The one gate: known call, allowed caller, a role that may, input by schema, casebook there, then the handler, then the answer by schema:
 * neither side of a host's border ever sees anything out of contract.
 */
export function createDispatcher(
  program: ApplicationContext,
  handlers: Handlers,
  caller: Caller,
  options: { readonly log?: (message: string, error: unknown) => void } = {},
): Dispatcher {
  const missing = CALL_NAMES.filter((name) => typeof handlers[name] !== 'function');
  if (missing.length > 0) throw new Error(`no handler for ${missing.join(', ')}`);

  const run = async <N extends CallName>(name: N, raw: unknown, by: Visitor): Promise<Reply<OutputOf<N>>> => {
    const definition = calls[name];
    if (!(definition.callers as readonly Caller[]).includes(caller)) {
      throw new DomainError('forbidden', refusals.notFromHere({ name, caller }));
    }
    if (by.kind === 'device' && !mayCall(by.role, name)) throw new DomainError('forbidden', whoMay(name));
    const input = definition.input.safeParse(raw, { reportInput: true });
    if (!input.success) throw new DomainError('bad-request', faultOfContract(input.error));
    if (!WITHOUT_CASEBOOK.has(name) && !program.casebook.isOpen) {
      await program.casebook.tryAgain();
      if (!program.casebook.isOpen)
        throw new DomainError('casebook-unavailable', program.casebook.problemSaid);
    }
    const value = await program.casebook.telling(changeToCome(name, input.data), async () =>
      handlers[name](program, input.data as ParsedInputOf<N>, by),
    );
    await auditCall(program, by, name, input.data as ParsedInputOf<N>, value);
    // The handler has committed: whoever reads now reads what was written.
    const change = changeBy(name, value);
    if (change) program.changes.raise(change);
    const output = definition.output.safeParse(value);
    if (!output.success)
      throw new Error(`"${name}" answered out of contract: ${z.prettifyError(output.error)}`);
    return { ok: true, value };
  };

  const settle = async <N extends CallName>(
    name: N,
    raw: unknown,
    by: Visitor = OWNER,
  ): Promise<Reply<OutputOf<N>>> => {
    try {
      return await run(name, raw, by);
    } catch (error) {
      if (error instanceof DomainError) {
        const { code, message, said, current } = error;
        return { ok: false, error: { code, message, said, ...(current === undefined ? {} : { current }) } };
      }
      const trouble = program.casebook.troubleOf(error);
      if (trouble) return failedReply(trouble.code, trouble.said);
      options.log?.(`call ${name} failed`, error);
      const message = error instanceof Error ? error.message : String(error);
      return failedReply('internal', refusals.wentWrong({ message }));
    }
  };

  return {
    dispatch: (name, input, by) =>
      isCallName(name)
        ? settle(name, input, by)
        : Promise.resolve(
            failedReply('bad-request', refusals.unknownCall({ name: String(name).slice(0, 60) })),
          ),
    call: (name, input) => settle(name, input),
  };
}

/** Why not, and the way on. */
function whoMay(name: CallName): Message {
  return refusals.onlyFor({ roles: callRoles[name].map((role) => ROLES[role]) });
}

const ROLES: Readonly<Record<Role, Message>> = {
  operator: refusals.operators(),
  lead: refusals.theLead(),
  trainer: refusals.trainers(),
};

function isCallName(name: unknown): name is CallName {
  return typeof name === 'string' && (CALL_NAMES as readonly string[]).includes(name);
}
