/** The code of an error of the operating system or of SQLite ("ENOSPC", "SQLITE_FULL"); empty where it has none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

/** What keeps a file from being used, as far as an error tells. Only `damaged` is a reason to fetch a backup. */
export type TroubleKind = 'full' | 'not-writable' | 'damaged' | 'in-use' | 'other';

export interface FileTrouble {
  readonly kind: TroubleKind;
  /** What is the matter, in words that end a sentence: "the disk is full". */
  readonly words: string;
}

const FULL = new Set(['ENOSPC', 'EDQUOT', 'SQLITE_FULL']);
const NOT_WRITABLE = new Set(['EACCES', 'EPERM', 'EROFS']);

/** Sorts an error of file or database by what somebody can do about it. */
export function fileTrouble(error: unknown): FileTrouble {
  const code = codeOf(error);
  const message = error instanceof Error ? error.message : String(error);
  if (FULL.has(code)) return { kind: 'full', words: 'the disk is full' };
  if (NOT_WRITABLE.has(code) || code.startsWith('SQLITE_READONLY') || code.startsWith('SQLITE_PERM'))
    return { kind: 'not-writable', words: 'it may only be read, not written' };
  if (code.startsWith('SQLITE_CANTOPEN'))
    return { kind: 'not-writable', words: 'its folder is not there or may not be written in' };
  if (code === 'SQLITE_NOTADB') return { kind: 'damaged', words: 'what is in it is no casebook' };
  if (code.startsWith('SQLITE_CORRUPT')) return { kind: 'damaged', words: `it is damaged (${message})` };
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return { kind: 'in-use', words: 'another program has it open' };
  return { kind: 'other', words: code && !message.includes(code) ? `${message} (${code})` : message };
}
