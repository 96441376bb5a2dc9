/** Something wrong with the knowledge files: where it is, what it is, and what would be right. */
export interface KnowledgeFault {
  readonly code: string;
  readonly file: string;
  readonly line: number;
  readonly message: string;
  readonly remedy: string;
}

/** One line of text, as a compiler would print it. */
export function formatFault(fault: KnowledgeFault): string {
  return `${fault.file}:${fault.line}: ${fault.message} - ${fault.remedy} [${fault.code}]`;
}
