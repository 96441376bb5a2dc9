import type { Message } from '../../src-core/words/message.ts';
import type { Kysely } from 'kysely';
import type { Backup, Dumps } from '../../src-core/contract/casebook-view.ts';
import type { Change } from '../../src-core/contract/change.ts';
import type { Tables } from './tables.ts';

export type CasebookDb = Kysely<Tables>;

/** Photos by the hash of what is in them. They never change; the cases' logs say which are theirs. */
export interface PhotoKeeper {
  /** Keeps a photo and returns its hash; it is safe by then. The caller has checked what it is. */
  keep(bytes: Buffer): Promise<string>;
  /** The photo, or null where there is none that is whole. */
  read(hash: string): Promise<Buffer | null>;
  /** Takes a photo away for good. */
  remove(hash: string): Promise<void>;
  /** All that are kept, in no order. */
  hashes(): Promise<readonly string[]>;
}

/** Something that kept the casebook from doing what was asked, for whoever asked. */
export interface CasebookTrouble {
  /** `casebook-unavailable` where nothing can be done with it for now; `refused` where only this was not possible. */
  readonly code: 'casebook-unavailable' | 'refused';
  readonly said: readonly Message[];
}

/** The casebook as a host holds it, whatever keeps it: open, or unavailable with the reason and the way back. */
export interface Casebook {
  /** Where it is, for people: a file, or a database without its password. */
  readonly place: string;
  /** Can be worked with, as far as is known without asking. */
  readonly isOpen: boolean;
  /** Why it is unavailable, sentence by sentence; meaningful while `isOpen` is false. */
  readonly problemSaid: readonly Message[];
  /** The same in English: for logs and the command line. */
  readonly problem: string;
  /** What does not keep it from working but should be seen to. */
  readonly warnings: readonly Message[];
  /** The open database; throws where it is unavailable, so ask `isOpen` at the gate. */
  readonly db: CasebookDb;
  readonly photos: PhotoKeeper;
  /** What only a casebook in a file has; null elsewhere. */
  readonly upkeep: FileUpkeep | null;
  /** Copies that are made by other programs; null where Beadwright makes its own. */
  readonly dumps: (() => Dumps) | null;

  /** Opens it, with today's schema. Never throws: see `problem`. */
  open(): Promise<void>;
  /** Opens where that failed for a reason that passes; at most every few seconds, as often as it is asked. */
  tryAgain(): Promise<void>;
  close(): Promise<void>;
  /** What an error of a call means, where it came from the database and somebody can do something about it. */
  troubleOf(error: unknown): CasebookTrouble | null;
  /** Hears what other stations on the same casebook have committed. One listener; nobody else is on a file. */
  followOthers(listener: (change: Change) => void): void;
  /** Runs a call that may commit `change`, so that other stations are told of it in the very commit. */
  telling<T>(change: Change | null, call: () => Promise<T>): Promise<T>;
}

/** Backups and restores of a casebook in a file. */
export interface FileUpkeep {
  readonly backupFolder: string;
  /** Whether `beginEmpty` is offered: nothing is there to lose, or nothing of it can be read and there is no way back. */
  readonly canBeginEmpty: boolean;
  /** Whether this process may put a backup in the casebook's place. */
  readonly canRestore: boolean;
  /** Why not. */
  readonly restoreRefusal: readonly Message[];
  /** Begins an empty casebook; returns where what was there is kept. */
  beginEmpty(): Promise<string>;
  listBackups(): Backup[];
  /** Makes a backup now. Throws a `SaidError` where that does not work. */
  makeBackup(): Promise<Backup>;
  /** Replaces the casebook by a backup; the replaced file is kept under the name returned. Throws in words. */
  restore(name: string): Promise<string>;
}
