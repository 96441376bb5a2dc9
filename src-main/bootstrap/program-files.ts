import { existsSync, readFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';

/** Where the program's own files lie: the folder with package.json, knowledge and out. */
export function programFolder(from: string): string {
  let folder = path.resolve(from);
  while (!existsSync(path.join(folder, 'knowledge', 'conditions.yaml'))) {
    const parent = path.dirname(folder);
    if (parent === folder) throw new Error(`no knowledge folder above ${from}`);
    folder = parent;
  }
  return folder;
}

export function programVersion(folder: string): string {
  const manifest: unknown = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  const version =
    manifest !== null && typeof manifest === 'object' && 'version' in manifest ? manifest.version : undefined;
  return typeof version === 'string' ? version : '0.0.0';
}

/** The built code of a reasoning thread. */
export function reasoningWorker(folder: string): string {
  return path.join(folder, 'out', 'main', 'reasoning.js');
}

/** The casebook's file: BEADWRIGHT_CASEBOOK, or the user's data folder. Desktop and station share it. */
export function casebookFile(environment: NodeJS.ProcessEnv): string {
  // Set to nothing it would name a database that SQLite keeps nowhere.
  const named = environment['BEADWRIGHT_CASEBOOK']?.trim();
  if (named) return named === ':memory:' ? named : path.resolve(named);
  return path.join(dataFolder(environment), 'beadwright', 'casebook.sqlite');
}

/** What a station remembers of its own: beside the casebook's file, or where there is none in the user's data folder. */
export function stationFile(environment: NodeJS.ProcessEnv): string {
  const named = environment['BEADWRIGHT_STATION_FILE']?.trim();
  if (named) return path.resolve(named);
  if (environment['BEADWRIGHT_DATABASE']?.trim())
    return path.join(dataFolder(environment), 'beadwright', 'station.json');
  const casebook = casebookFile(environment);
  return casebook === ':memory:' ? casebook : `${casebook}.station.json`;
}

/** Where the station keeps its own certificate authority: beside what else it remembers; null where it keeps nothing. */
export function certificateFolder(environment: NodeJS.ProcessEnv): string | null {
  const file = stationFile(environment);
  return file === ':memory:' ? null : `${file.replace(/\.json$/, '')}-certificates`;
}

/** The user's own folder for programs' data. */
export function dataFolder(environment: NodeJS.ProcessEnv): string {
  if (process.platform === 'win32')
    return environment['APPDATA'] || path.join(os.homedir(), 'AppData', 'Roaming');
  if (process.platform === 'darwin') return path.join(os.homedir(), 'Library', 'Application Support');
  return environment['XDG_DATA_HOME'] || path.join(os.homedir(), '.local', 'share');
}
