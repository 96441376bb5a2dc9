import { isMap, isScalar, isSeq, LineCounter, parseDocument, type Document } from 'yaml';
import type { z } from 'zod';
import type { KnowledgeFault } from './fault.ts';
import { nearestId } from './nearest-id.ts';
import { knowledgeFileSchema, type KnowledgeFile } from './schema.ts';

/** One file as it was read: a name for messages and its text. */
export interface KnowledgeText {
  readonly file: string;
  readonly text: string;
}

/** A parsed file and a way back from a place in it to a line. */
export interface ParsedKnowledgeFile {
  readonly file: string;
  readonly content: KnowledgeFile;
  lineOf(path: readonly PropertyKey[]): number;
}

/** Parses and validates the files one by one; faults carry file and line, good files come back whatever the others hold. */
export function parseKnowledge(texts: readonly KnowledgeText[]): {
  files: ParsedKnowledgeFile[];
  faults: KnowledgeFault[];
} {
  const files: ParsedKnowledgeFile[] = [];
  const faults: KnowledgeFault[] = [];
  for (const { file, text } of texts) {
    const lines = new LineCounter();
    const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true });
    if (document.errors.length > 0) {
      for (const error of document.errors) {
        faults.push({
          code: 'not-yaml',
          file,
          line: lines.linePos(error.pos[0]).line,
          message: error.message.split('\n')[0] ?? 'not YAML',
          remedy: 'mend the YAML; texts with a colon or a # need quotes',
        });
      }
      continue;
    }
    const lineOf = (path: readonly PropertyKey[]) => lineOfPath(document, lines, path);
    // With what was written, so that the nearest allowed word can be offered.
    const parsed = knowledgeFileSchema.safeParse(document.toJS(), { reportInput: true });
    if (!parsed.success) {
      for (const issue of parsed.error.issues) {
        const line = lineOf(issue.path);
        const message = `${placeOf(document, issue.path)}: ${issue.message}`;
        faults.push({ code: 'bad-shape', file, line, message, remedy: remedyFor(issue) });
      }
      continue;
    }
    files.push({ file, content: parsed.data, lineOf });
  }
  return { files, faults };
}

/** "causes › wet-filament › prior" rather than "causes.0.prior": entries are named by their id. */
function placeOf(document: Document, path: readonly PropertyKey[]): string {
  const names = path.map((key, depth) => {
    if (typeof key !== 'number') return String(key);
    const id = document.getIn([...path.slice(0, depth + 1), 'id']);
    return typeof id === 'string' ? id : `entry ${key + 1}`;
  });
  return names.length === 0 ? 'file' : names.join(' › ');
}

function remedyFor(issue: z.core.$ZodIssue): string {
  if (issue.code === 'unrecognized_keys') {
    return `remove or rename ${issue.keys.map((key) => `"${key}"`).join(', ')}; the JSON Schema lists the known keys`;
  }
  if (issue.code === 'invalid_value') {
    const values = issue.values.map(String);
    const given =
      'input' in issue && typeof issue.input === 'string' ? nearestId(issue.input, values) : undefined;
    return given ? `did you mean "${given}"?` : `use one of ${values.join(', ')}`;
  }
  return 'give a value of the form the message names';
}

function lineOfPath(document: Document, lines: LineCounter, path: readonly PropertyKey[]): number {
  let node: unknown = document.contents;
  let line = 1;
  for (const key of path) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && item.key.value === key);
      if (!pair) break;
      const range = isScalar(pair.key) ? pair.key.range : undefined;
      if (range) line = lines.linePos(range[0]).line;
      node = pair.value;
    } else if (isSeq(node) && typeof key === 'number') {
      node = node.items[key];
      const range = isMap(node) || isScalar(node) || isSeq(node) ? node.range : undefined;
      if (range) line = lines.linePos(range[0]).line;
    } else break;
  }
  return line;
}
