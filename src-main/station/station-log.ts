import { destination, levels, pino } from 'pino';

/** What a station says while it works, for whoever looks after it. */
export interface StationLog {
  info(words: string, facts?: object): void;
  warn(words: string): void;
  error(words: string, error: unknown): void;
  /** One request, when it has been answered; nothing of what was said in it. */
  answered(facts: {
    readonly method: string;
    readonly path: string;
    readonly status: number;
    readonly milliseconds: number;
    /** Number of the browser, or id of the device; null where nobody was let in. */
    readonly who: string | null;
  }): void;
}

/**
 * Warnings and errors in plain words on standard error; with BEADWRIGHT_LOG (error, warn, info or debug) all of it as lines
 * of JSON instead, for a program that collects them: requests at debug, those that failed at info.
 */
export function stationLog(environment: NodeJS.ProcessEnv): StationLog {
  const level = environment['BEADWRIGHT_LOG']?.trim();
  if (!level) return plainLog;
  if (!Object.values(levels.labels).includes(level))
    throw new Error(`BEADWRIGHT_LOG takes error, warn, info or debug; not "${level}"`);
  // Written at once: what a station says before it is killed is there.
  const log = pino({ base: { program: 'beadwright' }, level }, destination({ dest: 2, sync: true }));
  return {
    info: (words, facts = {}) => log.info(facts, words),
    warn: (words) => log.warn(words),
    error: (words, error) => log.error({ err: error }, words),
    answered: (facts) => (facts.status >= 500 ? log.info : log.debug).call(log, facts, 'answered'),
  };
}

const plainLog: StationLog = {
  info: () => undefined,
  warn: (words) => console.error(words),
  error: (words, error) => console.error(words, error),
  answered: () => undefined,
};
