import { startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { startApplication } from '../bootstrap/start-application.ts';
import { ChangeFeed } from '../operations/change-feed.ts';
import { createDispatcher, type Dispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import type { ApplicationContext } from '../operations/application-context.ts';

/** The program behind a station: there, or not yet, with the reason. */
export class StartUp {
  program: ApplicationContext | null = null;
  fault: StartFault | null = null;
  /** Of the program, once it is there: screens follow from before. */
  readonly changes = new ChangeFeed();
  #dispatcher: Dispatcher | null = null;
  #trying: Promise<void> | null = null;
  readonly #folder: string;
  readonly #environment: NodeJS.ProcessEnv;

  constructor(folder: string, environment: NodeJS.ProcessEnv) {
    this.#folder = folder;
    this.#environment = environment;
  }

  /** Starts the program where it is not there yet. Never throws: see `fault`. */
  async tryAgain(): Promise<void> {
    if (this.program) {
      this.fault = null;
      return;
    }
    this.#trying ??= this.#start().finally(() => (this.#trying = null));
    await this.#trying;
  }

  async #start(): Promise<void> {
    try {
      const program = await startApplication('station', this.#folder, this.#environment);
      this.#dispatcher = createDispatcher(program, handlers, 'station', {
        log: (message, error) => console.error(message, error),
      });
      program.changes.follow(this.changes.raise);
      this.program = program;
      this.fault = null;
    } catch (error) {
      this.fault = startFaultOf(error);
    }
  }

  /** Answers calls; while the program is not there, with why: a page that is open already shows it. */
  readonly dispatch: Dispatcher['dispatch'] = (name, input) =>
    this.#dispatcher
      ? this.#dispatcher.dispatch(name, input)
      : Promise.resolve({
          ok: false,
          error: {
            code: 'knowledge-faulty',
            message: `${this.fault?.title ?? 'Beadwright is starting.'} ${this.fault?.reason ?? ''}`.trim(),
          },
        });

  async close(): Promise<void> {
    await this.program?.reasoner.close();
    await this.program?.casebook.close();
  }
}
