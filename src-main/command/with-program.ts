import { inEnglish } from '../../src-core/words/in-english.ts';
import { withKeptPlace } from '../bootstrap/kept-place.ts';
import { createDispatcher, type Dispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import { startApplication } from '../bootstrap/start-application.ts';
import { UsageError } from './usage-error.ts';

/** Runs work against the casebook through the same gate as the screens, and closes the casebook after it. */
export async function withProgram(
  folder: string,
  work: (call: TrustedCall) => Promise<void>,
  options: {
    /** A backup is made first where one is due. A command that only reads makes none. */
    readonly isWriting?: boolean;
  } = {},
): Promise<void> {
  const program = await startApplication('command', folder, withKeptPlace(process.env), {
    makesBackups: options.isWriting ?? false,
  });
  for (const warning of program.casebook.warnings)
    process.stderr.write(`beadwright: ${inEnglish(warning)}\n`);
  const dispatcher = createDispatcher(program, handlers, 'command');
  try {
    await work(trusted(dispatcher));
  } finally {
    await program.casebook.close();
  }
}

export type TrustedCall = <N extends CallName>(name: N, input: InputOf<N>) => Promise<OutputOf<N>>;

function trusted(dispatcher: Dispatcher): TrustedCall {
  return async (name, input) => {
    const reply = await dispatcher.call(name, input);
    if (!reply.ok) throw new UsageError(reply.error.message, false);
    return reply.value;
  };
}
