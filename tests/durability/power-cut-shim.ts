import { spawnSync } from 'node:child_process';
import path from 'node:path';

/** Why the cut cannot be played here, or empty. The shim is a library for Linux, and has to be compiled. */
export const HINDRANCE =
  process.platform !== 'linux'
    ? 'the shim is for Linux'
    : spawnSync('cc', ['--version']).status === 0
      ? ''
      : 'there is no C compiler here';

export interface Watched {
  /** The folder in which a program works. */
  readonly watched: string;
  /** Gets what of it is certainly on the disk. */
  readonly synced: string;
  /** Gets every step of that, by number; left out where only the end counts. */
  readonly history?: string;
}

/** Compiles the shim into a folder; what a program has to be started with so that it is watched. */
export function powerCutEnvironment(
  folder: string,
  { watched, synced, history }: Watched,
): NodeJS.ProcessEnv {
  const shim = path.join(folder, 'power-cut.so');
  const source = path.join(import.meta.dirname, 'power-cut.c');
  const built = spawnSync('cc', ['-shared', '-fPIC', '-o', shim, source, '-ldl'], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(built.stderr);
  return {
    ...process.env,
    LD_PRELOAD: shim,
    POWER_CUT_WATCHED: watched,
    POWER_CUT_SYNCED: synced,
    ...(history !== undefined && { POWER_CUT_HISTORY: history }),
  };
}
