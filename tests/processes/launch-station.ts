import { spawn, type ChildProcess } from 'node:child_process';
import path from 'node:path';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import { ended } from './ended.ts';

const ROOT = path.join(import.meta.dirname, '..', '..');
const START_LIMIT_MS = 180_000;

/** The built station in a process of its own, spoken to as a browser would. */
export interface StationProcess {
  /** As printed, with the token that lets a browser in. */
  readonly address: string;
  readonly pid: number;
  /** Everything it printed so far. */
  output(): string;
  call<N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>>;
  /** kill -9: no chance to tidy up. */
  killAtOnce(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * Starts the built station over a casebook and waits until it answers. `onStarted` gets the process at once, so that
 * whoever starts it can end it even when the start fails half-way.
 */
export async function launchStation(
  casebookFile: string,
  onStarted: (child: ChildProcess) => void = () => undefined,
  /** Any free port where none is given; null leaves the choice to the station. */
  port: number | null = 0,
  /** The program's entry, where it is not this checkout's build. */
  program = path.join(ROOT, 'out', 'main', 'station.js'),
  /** What it is told beside, as a service would be. */
  environment: Readonly<Record<string, string>> = {},
): Promise<StationProcess> {
  const child = spawn(process.execPath, [program], {
    env: {
      ...process.env,
      BEADWRIGHT_CASEBOOK: casebookFile,
      BEADWRIGHT_PORT: port === null ? '' : String(port),
      ...environment,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onStarted(child);
  let printed = '';
  child.stderr.on('data', (chunk: Buffer) => (printed += chunk.toString()));
  const address = await new Promise<string>((resolve, reject) => {
    const limit = setTimeout(
      () => reject(new Error(`the station did not start: ${printed}`)),
      START_LIMIT_MS,
    );
    child.on('exit', (code) => reject(new Error(`the station ended with ${code}: ${printed}`)));
    child.stdout.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
      // The whole line: a piece of it may end in the middle of the address.
      const found = /http:\/\/\S+(?=\s)/.exec(printed)?.[0];
      if (!found) return;
      clearTimeout(limit);
      resolve(found);
    });
  });
  const entry = await fetch(address, { redirect: 'manual' });
  const cookie = entry.headers.getSetCookie()[0]?.split(';')[0] ?? '';
  await entry.body?.cancel();
  const { origin } = new URL(address);
  return {
    address,
    pid: child.pid ?? 0,
    output: () => printed,
    call: async (name, input) => {
      const response = await fetch(`${origin}/api/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin, cookie },
        body: JSON.stringify(input),
      });
      return (await response.json()) as Reply<never>;
    },
    killAtOnce: () => ended(child, 'SIGKILL'),
    stop: () => ended(child, 'SIGTERM'),
  };
}
