import { createHash } from 'node:crypto';
import { constants, copyFileSync, existsSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import type { PhotoKeeper } from './casebook.ts';
import { makePrivateFolder, makePrivateIfThere, syncToDisk, writePrivateFile } from './private-files.ts';

const NAME = /^[0-9a-f]{64}\.jpg$/;

/**
 * Photos beside the casebook, each a file named by the hash of what is in it. They never change, so a backup only adds
 * those it lacks, all backups share one folder of them, and a restore takes none away. The cases' logs say which are theirs.
 */
export class PhotoFolder implements PhotoKeeper {
  readonly #folder: string | null;
  readonly #backupFolder: string | null;
  readonly #inMemory = new Map<string, Buffer>();

  /** `casebookFile` ":memory:" keeps them in memory. */
  constructor(casebookFile: string, backupFolder: string) {
    const isOnDisk = casebookFile !== ':memory:';
    this.#folder = isOnDisk ? `${casebookFile}.photos` : null;
    this.#backupFolder = isOnDisk ? path.join(backupFolder, 'photos') : null;
  }

  /** Keeps a photo and returns its hash; it is on the disk by then. The caller has checked what it is. */
  keep(bytes: Buffer): Promise<string> {
    return new Promise((resolve) => resolve(this.#keep(bytes)));
  }

  #keep(bytes: Buffer): string {
    const hash = hashOf(bytes);
    if (this.#folder === null) this.#inMemory.set(hash, bytes);
    else if (this.#read(hash) === null) writePrivateFile(path.join(this.#folder, `${hash}.jpg`), bytes);
    return hash;
  }

  /** The photo, from the backups where it is gone beside the casebook; null where there is none that is whole. */
  read(hash: string): Promise<Buffer | null> {
    return new Promise((resolve) => resolve(this.#read(hash)));
  }

  #read(hash: string): Buffer | null {
    if (!NAME.test(`${hash}.jpg`)) return null;
    if (this.#folder === null) return this.#inMemory.get(hash) ?? null;
    return readWhole(this.#folder, hash) ?? readWhole(this.#backupFolder ?? this.#folder, hash);
  }

  /** Takes a photo away for good, from the backups' folder as well. */
  remove(hash: string): Promise<void> {
    return new Promise((resolve) => resolve(this.#remove(hash)));
  }

  #remove(hash: string): void {
    this.#inMemory.delete(hash);
    if (!NAME.test(`${hash}.jpg`)) return;
    for (const folder of [this.#folder, this.#backupFolder])
      if (folder !== null) rmSync(path.join(folder, `${hash}.jpg`), { force: true });
  }

  /** With those that only the backups still have. */
  hashes(): Promise<readonly string[]> {
    return new Promise((resolve) => resolve([...this.#hashes()]));
  }

  #hashes(): ReadonlySet<string> {
    if (this.#folder === null) return new Set(this.#inMemory.keys());
    const names = [this.#folder, this.#backupFolder].flatMap((folder) =>
      folder !== null && existsSync(folder) ? readdirSync(folder) : [],
    );
    return new Set(names.filter((name) => NAME.test(name)).map((name) => path.basename(name, '.jpg')));
  }

  /** Adds what the backups lack. Throws where that does not work. */
  backUp(): void {
    if (this.#folder === null || this.#backupFolder === null || !existsSync(this.#folder)) return;
    const there = new Set(existsSync(this.#backupFolder) ? readdirSync(this.#backupFolder) : []);
    const missing = readdirSync(this.#folder).filter((name) => NAME.test(name) && !there.has(name));
    if (missing.length === 0) return;
    makePrivateFolder(this.#backupFolder);
    for (const name of missing) {
      const copy = path.join(this.#backupFolder, name);
      copyFileSync(path.join(this.#folder, name), `${copy}.part`, constants.COPYFILE_FICLONE);
      makePrivateIfThere(`${copy}.part`);
      syncToDisk(`${copy}.part`);
      renameSync(`${copy}.part`, copy);
    }
    syncToDisk(this.#backupFolder, true);
  }
}

/** The name a photo is known by: SHA-256 of its bytes, in hex. */
export function hashOf(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function readWhole(folder: string, hash: string): Buffer | null {
  try {
    const bytes = readFileSync(path.join(folder, `${hash}.jpg`));
    return hashOf(bytes) === hash ? bytes : null;
  } catch {
    return null;
  }
}
