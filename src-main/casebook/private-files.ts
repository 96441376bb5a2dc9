import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';

/** Casebook and backups are nobody else's on a shared machine. Windows knows no such modes and keeps its own rights. */
const OWN_FILE = 0o600;
const OWN_FOLDER = 0o700;

/** Makes a folder that only its owner can enter; one that is there already stays as it is. */
export function makePrivateFolder(folder: string): void {
  mkdirSync(folder, { recursive: true, mode: OWN_FOLDER });
}

/** Takes the rights of others from a folder of the program's own. */
export function closeFolderToOthers(folder: string): void {
  tryChange(folder, OWN_FOLDER);
}

/** Takes the rights of others from a file, where it is there. */
export function makePrivateIfThere(file: string): void {
  tryChange(file, OWN_FILE);
}

/** Writes a file for its owner only, all of it or nothing, and brings it to the disk; a folder that is not there is made. */
export function writePrivateFile(file: string, contents: string | Uint8Array): void {
  const folder = path.dirname(file);
  makePrivateFolder(folder);
  try {
    writeFileSync(`${file}.part`, contents, { mode: OWN_FILE });
    syncToDisk(`${file}.part`);
    renameSync(`${file}.part`, file);
  } catch (error) {
    rmSync(`${file}.part`, { force: true });
    throw error;
  }
  syncToDisk(folder, true);
}

/** Brings what was written to a file, or the names in a folder, to the disk; some systems do not sync folders. */
export function syncToDisk(fileOrFolder: string, isFolder = false): void {
  let handle: number;
  try {
    handle = openSync(fileOrFolder, isFolder ? 'r' : 'r+');
  } catch (error) {
    if (isFolder) return;
    throw error;
  }
  try {
    fsyncSync(handle);
  } catch (error) {
    if (!isFolder) throw error;
  } finally {
    closeSync(handle);
  }
}

function tryChange(file: string, mode: number): void {
  try {
    if (existsSync(file)) chmodSync(file, mode);
  } catch {
    // Somebody else's file, or a file system without modes: it works as it is.
  }
}
