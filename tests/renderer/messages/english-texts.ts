import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

const root = path.join(import.meta.dirname, '..', '..', '..');
const FOLDERS = {
  screens: path.join(root, 'src-renderer', 'messages', 'en'),
  core: path.join(root, 'src-core', 'words', 'en'),
} as const;

/** One file of the catalogue as it stands in the source. */
export interface Catalogue {
  readonly file: string;
  /** What leads the key of each text in another language: "bench". */
  readonly part: string;
  readonly texts: ReadonlyMap<string, string>;
}

/** Reads the English texts of the screens, or those of core and main, from the source, in the syntax of ICU MessageFormat. */
export function englishTexts(of: keyof typeof FOLDERS): Catalogue[] {
  const folder = FOLDERS[of];
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
