import { readdirSync } from 'node:fs';
import path from 'node:path';
import { parse } from '@formatjs/icu-messageformat-parser';
import type { Plugin } from 'vite';

const CATALOGUE = /\/src-(?:renderer\/messages|core\/words)\/en\/[\w-]+\.ts$/;
const PARSER = '@formatjs/icu-messageformat-parser';
/** What makes a text more than itself in the syntax of ICU MessageFormat. */
const SYNTAX = /[{}<']/;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly value?: unknown;
}

/**
 * Parses the English texts while the program is built, so that no page needs the parser for them: a text with placeholders, plurals or
 * marked words becomes its elements. Only another language brings the parser.
 */
export function parsedMessages(): Plugin {
  return {
    name: 'parsed-messages',
    enforce: 'pre',
    async resolveId(source, importer) {
      if (source !== PARSER || !importer?.includes('/intl-messageformat/')) return null;
      return this.resolve(`${PARSER}/no-parser.js`, importer, { skipSelf: true });
    },
    transform(code, id) {
      if (!CATALOGUE.test(id.split('?')[0] ?? '')) return null;
      return { code: withElements(code, textsOf(this.parse(code))), map: null };
    },
  };
}

/** Tags of the languages that there is a file for beside English, for `__LANGUAGES__`. */
export function languageTags(): string {
  const folder = path.join(import.meta.dirname, 'src-renderer', 'public', 'languages');
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith('.json'));
    return JSON.stringify(names.map((name) => name.slice(0, -'.json'.length)).sort());
  } catch {
    return '[]';
  }
}

/** The texts in a parsed catalogue, in the order in which they stand. */
function textsOf(tree: unknown): Node[] {
  if (Array.isArray(tree)) return tree.flatMap(textsOf);
  if (typeof tree !== 'object' || tree === null) return [];
  if ('type' in tree && tree.type === 'Property' && 'value' in tree) {
    const text = tree.value as Node;
    return text.type === 'Literal' && typeof text.value === 'string' ? [text] : [];
  }
  return Object.values(tree).flatMap(textsOf);
}

function withElements(code: string, texts: readonly Node[]): string {
  return texts.reduceRight((whole, { start, end, value }) => {
    const text = String(value);
    if (!SYNTAX.test(text)) return whole;
    return whole.slice(0, start) + JSON.stringify(parse(text, { captureLocation: false })) + whole.slice(end);
  }, code);
}
