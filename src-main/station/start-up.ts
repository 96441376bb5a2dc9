import { startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { startApplication } from '../bootstrap/start-application.ts';
import { whatChanges } from '../../src-core/contract/change.ts';
import { Doorkeeper } from '../operations/access/doorkeeper.ts';
import { ChangeFeed } from '../operations/change-feed.ts';
import { createDispatcher, type Dispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import type { StationLog } from './station-log.ts';

/** The program behind a station: there, or not yet, with the reason. */
export class StartUp {
  program: ApplicationContext | null = null;
  fault: StartFault | null = null;
  /** Of the program, once it is there: screens follow from before. */
  readonly changes = new ChangeFeed();
  #addresses: readonly string[] = [];
  /** Knows devices, once the program is there. */
  doorkeeper: Doorkeeper | null = null;
  #dispatcher: Dispatcher | null = null;
  #trying: Promise<void> | null = null;
  readonly #folder: string;
  readonly #environment: NodeJS.ProcessEnv;
  readonly #log: StationLog;

  constructor(folder: string, environment: NodeJS.ProcessEnv, log: StationLog) {
    this.#folder = folder;
    this.#environment = environment;
    this.#log = log;
  }

  /** Where devices of the network find the station; the program says it to the lead, now or once it is there. */
  set addresses(addresses: readonly string[]) {
    this.#addresses = addresses;
    if (this.program) this.program.desk.addresses = addresses;
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
      const program = await startApplication('station', this.#folder, this.#environment, {
        log: (words) => this.#log.warn(words),
      });
      this.#dispatcher = createDispatcher(program, handlers, 'station', {
        log: (message, error) => this.#log.error(message, error),
      });
      program.changes.follow(this.changes.raise);
      program.desk.addresses = this.#addresses;
      this.doorkeeper = new Doorkeeper(program);
      this.program = program;
      this.fault = null;
    } catch (error) {
      this.fault = startFaultOf(error);
    }
  }

  /** Answers calls; while the program is not there, with why: a page that is open already shows it. */
  readonly dispatch: Dispatcher['dispatch'] = async (name, input, by) => {
    if (!this.#dispatcher) return this.#notThere();
    const reply = await this.#dispatcher.dispatch(name, input, by);
    // What was answered holds, whether or not the time of it can be noted.
    if (reply.ok && by && isWriting(name)) await this.doorkeeper?.touchPerson(by).catch(() => undefined);
    return reply;
  };

  #notThere(): Reply<never> {
    return {
      ok: false,
      error: {
        code: 'knowledge-faulty',
        message: `${this.fault?.title ?? 'Beadwright is starting.'} ${this.fault?.reason ?? ''}`.trim(),
      },
    };
  }

  async close(): Promise<void> {
    await this.program?.reasoner.close();
    await this.program?.casebook.close();
  }
}

function isWriting(name: unknown): boolean {
  return typeof name === 'string' && Object.hasOwn(whatChanges, name)
    ? whatChanges[name as keyof typeof whatChanges].length > 0
    : false;
}
