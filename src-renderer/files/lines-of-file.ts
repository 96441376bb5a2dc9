const PIECE_BYTES = 4 * 1024 * 1024;

export interface LineLot {
  /** Number of the first line in the file, from 1. */
  readonly firstLine: number;
  readonly text: string;
}

/** The lines of a UTF-8 file in lots of some megabytes, cut between lines: a file may be larger than any one call. */
export async function* linesOfFile(file: Blob, pieceBytes = PIECE_BYTES): AsyncGenerator<LineLot> {
  const decoder = new TextDecoder();
  let rest = '';
  let firstLine = 1;
  for (let at = 0; at < file.size; at += pieceBytes) {
    const bytes = await file.slice(at, at + pieceBytes).arrayBuffer();
    rest += decoder.decode(bytes, { stream: at + pieceBytes < file.size });
    const end = rest.lastIndexOf('\n');
    if (end < 0) continue;
    const text = rest.slice(0, end);
    yield { firstLine, text };
    firstLine += text.split('\n').length;
    rest = rest.slice(end + 1);
  }
  if (rest !== '') yield { firstLine, text: rest };
}
