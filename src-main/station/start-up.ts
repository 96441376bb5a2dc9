import { startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { startApplication } from '../bootstrap/start-application.ts';
import { Doorkeeper } from '../operations/access/doorkeeper.ts';
import { ChangeFeed } from '../operations/change-feed.ts';
import { createDispatcher, type Dispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import type { NetworkSwitch } from '../operations/access/network-switch.ts';
import { dispatchAtDoor } from './device-dispatch.ts';
import type { StationLog } from './station-log.ts';

/** The program behind a station: there, or not yet, with the reason. */
export class StartUp {
  program: ApplicationContext | null = null;
  fault: StartFault | null = null;
  /** Of the program, once it is there: screens follow from before. */
  readonly changes = new ChangeFeed();
  /** Knows devices, once the program is there. */
  doorkeeper: Doorkeeper | null = null;
  #dispatch: Dispatcher['dispatch'] | null = null;
  #network: NetworkSwitch | null = null;
  #trying: Promise<void> | null = null;
  readonly #folder: string;
  readonly #environment: NodeJS.ProcessEnv;
  readonly #log: StationLog;

  constructor(folder: string, environment: NodeJS.ProcessEnv, log: StationLog) {
    this.#folder = folder;
    this.#environment = environment;
    this.#log = log;
  }

  /** The door for devices of the network; the program knows it, now or once it is there. */
  set network(network: NetworkSwitch) {
    this.#network = network;
    if (this.program) this.program.desk.network = network;
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
      const dispatcher = createDispatcher(program, handlers, 'station', {
        log: (message, error) => this.#log.error(message, error),
      });
      program.changes.follow(this.changes.raise);
      program.desk.network = this.#network;
      this.doorkeeper = new Doorkeeper(program);
      this.#dispatch = dispatchAtDoor(dispatcher, this.doorkeeper);
      this.program = program;
      this.fault = null;
    } catch (error) {
      this.fault = startFaultOf(error);
    }
  }

  /** Answers calls; while the program is not there, with why: a page that is open already shows it. */
  readonly dispatch: Dispatcher['dispatch'] = async (name, input, by) =>
    this.#dispatch ? this.#dispatch(name, input, by) : this.#notThere();

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
