import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

const folder = path.join(import.meta.dirname, '..', '..', '..', 'src-renderer', 'messages', 'en');

/** One file of the catalogue as it stands in the source. */
export interface Catalogue {
  readonly file: string;
  /** What leads the key of each text in another language: "bench". */
  readonly part: string;
  readonly texts: ReadonlyMap<string, string>;
}

/** Reads the catalogue of English texts from the source, in the syntax of ICU MessageFormat. */
export function englishTexts(): Catalogue[] {
  return readdirSync(folder).map((file) => {
    const source = ts.createSourceFile(
      file,
      readFileSync(path.join(folder, file), 'utf8'),
      ts.ScriptTarget.Latest,
    );
    const texts = new Map<string, string>();
    let part = '';
    const look = (node: ts.Node) => {
      if (ts.isCallExpression(node) && node.arguments[0] && ts.isStringLiteral(node.arguments[0]))
        part = node.arguments[0].text;
      if (ts.isPropertyAssignment(node) && ts.isIdentifier(node.name) && ts.isStringLiteral(node.initializer))
        texts.set(node.name.text, node.initializer.text);
      ts.forEachChild(node, look);
    };
    look(source);
    return { file, part, texts };
  });
}
