import { casebookTrouble } from '../../src-core/words/en/casebook-trouble.ts';
import type { Message } from '../../src-core/words/message.ts';
import { SaidError } from '../../src-core/words/said-error.ts';

/** The code of an error of the operating system or of SQLite ("ENOSPC", "SQLITE_FULL"); empty where it has none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/** What keeps a file from being used, as far as an error tells. Only `damaged` is a reason to fetch a backup. */
export type TroubleKind = 'full' | 'not-writable' | 'damaged' | 'in-use' | 'other';

export interface FileTrouble {
  readonly kind: TroubleKind;
  /** What is the matter, as the end of a sentence: "the disk is full". Words where only the system has some. */
  readonly why: string | Message;
}

const FULL = new Set(['ENOSPC', 'EDQUOT', 'SQLITE_FULL']);
const NOT_WRITABLE = new Set(['EACCES', 'EPERM', 'EROFS']);

/** Sorts an error of file or database by what somebody can do about it. */
export function fileTrouble(error: unknown): FileTrouble {
  const code = codeOf(error);
  const message = error instanceof Error ? error.message : String(error);
  if (FULL.has(code)) return { kind: 'full', why: casebookTrouble.diskIsFull() };
  if (NOT_WRITABLE.has(code) || code.startsWith('SQLITE_READONLY') || code.startsWith('SQLITE_PERM'))
    return { kind: 'not-writable', why: casebookTrouble.readOnlyFile() };
  if (code.startsWith('SQLITE_CANTOPEN')) return { kind: 'not-writable', why: casebookTrouble.noFolder() };
  if (code === 'SQLITE_NOTADB') return { kind: 'damaged', why: casebookTrouble.noCasebook() };
  if (code.startsWith('SQLITE_CORRUPT'))
    return { kind: 'damaged', why: casebookTrouble.damaged({ words: message }) };
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return { kind: 'in-use', why: casebookTrouble.anotherHasIt() };
  if (error instanceof SaidError) return { kind: 'other', why: error.said };
  const isNamed = code === '' || message.includes(code);
  return { kind: 'other', why: isNamed ? message : casebookTrouble.withCode({ words: message, code }) };
}
