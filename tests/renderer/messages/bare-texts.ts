import { parse as parseSvelte, type AST } from 'svelte/compiler';
import ts from 'typescript';

/** Attributes of elements and components whose text is read or heard by people. */
const SHOWN_ATTRIBUTES = new Set(
  [
    'aria-label',
    'aria-valuetext',
    'aria-description',
    'alt',
    'caption',
    'data-label',
    'does',
    'first',
    'heading',
  ]
    .concat(['all', 'fewer', 'hint', 'label', 'legend', 'meaning', 'message', 'none', 'noneLabel', 'note'])
    .concat(['placeholder', 'sort', 'stopLabel', 'summary', 'text', 'title', 'unit', 'verb', 'what', 'words'])
    .concat(['xName', 'yName']),
);
/** Properties and attributes that are addresses, ids or drawing orders. */
const NEVER_SHOWN =
  /^(?:id|kind|path|icon|method|ecc|paper|code|key|type|query|place|outcome|order|class|href|mode|style|d|day|points|transform|viewBox|on.*|aria-.*|role)$/;
/** Calls whose texts are selectors, addresses, tags of languages or what is compared. */
const NOT_FOR_PEOPLE =
  /(?:^|[.#])(?:hrefTo|goTo|Symbol|MediaQuery|Date|RegExp|EventSource|fetch|querySelector(?:All)?|matches|closest|\w+EventListener|getElementById|createElement|setAttribute|getContext|toBlob|\w+Item|followTopics|toLocale\w+|startsWith|endsWith|includes|indexOf|split|replace(?:All)?|call|register|test|match|glob)$/;

/** Whether a literal reads as words for people: several words, or one with a capital. Ids and keys are of one small word. */
export function readsAsWords(text: string): boolean {
  const words = text.trim();
  if (!/[A-Za-z]/.test(words) || /^\.{0,2}\/|^[Mm][\d\s.]|^[#.[][\w-]+|^\(prefers/.test(words)) return false;
  return /\s/.test(text) || /^[“(]?[A-Z][a-z’]/.test(words);
}

function isForPeople(literal: ts.Node): boolean {
  let at: ts.Node = literal;
  while (ts.isParenthesizedExpression(at.parent) || ts.isConditionalExpression(at.parent)) {
    if (ts.isConditionalExpression(at.parent) && at.parent.condition === at) return false;
    at = at.parent;
  }
  const { parent } = at;
  if (ts.isBinaryExpression(parent) && /^(?:[!=]==|in)$/.test(parent.operatorToken.getText())) return false;
  if (ts.isCaseClause(parent) || ts.isElementAccessExpression(parent) || ts.isTypeNode(parent)) return false;
  if (ts.isPropertyAssignment(parent))
    return parent.name !== at && !NEVER_SHOWN.test(parent.name.getText().replace(/'/g, ''));
  if (ts.isCallExpression(parent) || ts.isNewExpression(parent))
    return !NOT_FOR_PEOPLE.test(parent.expression.getText());
  return true;
}

/**
 * Literals of a script that read as words for people, with their places (1 is the first line of `code`). `errors`: calls of which the
 * texts say why something was refused, and are passed over, as is what is thrown.
 */
export function bareLiterals(
  code: string,
  errors?: readonly string[],
): { readonly line: number; readonly text: string }[] {
  const source = ts.createSourceFile('script.ts', code, ts.ScriptTarget.Latest, true);
  const found: { line: number; text: string }[] = [];
  const look = (node: ts.Node) => {
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node) || ts.isInterfaceDeclaration(node)) return;
    if (errors && ts.isThrowStatement(node)) return;
    if (errors && ts.isCallExpression(node) && errors.includes(node.expression.getText())) return;
    const text = ts.isStringLiteralLike(node)
      ? node.text
      : ts.isTemplateExpression(node)
        ? [node.head, ...node.templateSpans.map(({ literal }) => literal)].map((one) => one.text).join('0')
        : '';
    if (readsAsWords(text) && isForPeople(node))
      found.push({ line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, text });
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

/** What stands between words in a language: a comma, a semicolon, a word, or the space between sentences. */
const BETWEEN_WORDS = /[,;\p{L}]|^ $/u;
/** The same between two places of a template or of the markup. */
const BETWEEN_PLACES = /^\s*[,;]\s+$/;
/** What is thrown for whoever reads the log, and is no message. */
const PROGRAM_FAULT = /^(?:Type|Range|Usage)?Error$/;

/**
 * Calls of `join` that put words together by a literal, with their places: a list is `listed`, clauses are a `series`, and sentences stand
 * one after the other by `sentences`, as the page's language does it. What a fault of the program says is passed over.
 */
export function joinsOfWords(code: string): { readonly line: number; readonly text: string }[] {
  const source = ts.createSourceFile('script.ts', code, ts.ScriptTarget.Latest, true);
  const found: { line: number; text: string }[] = [];
  const look = (node: ts.Node) => {
    if (ts.isNewExpression(node) && PROGRAM_FAULT.test(node.expression.getText())) return;
    if (
      ts.isCallExpression(node) &&
      ts.isPropertyAccessExpression(node.expression) &&
      node.expression.name.text === 'join' &&
      node.expression.expression.getText() !== 'path'
    ) {
      const [by] = node.arguments;
      if (node.arguments.length === 1 && by && ts.isStringLiteralLike(by) && BETWEEN_WORDS.test(by.text))
        found.push({
          line: source.getLineAndCharacterOfPosition(by.getStart()).line + 1,
          text: node.getText().replace(/\s+/g, ' '),
        });
    }
    if (ts.isTemplateExpression(node)) {
      const between = node.templateSpans.slice(0, -1).map(({ literal }) => literal.text);
      if (between.some((one) => BETWEEN_PLACES.test(one)))
        found.push({
          line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1,
          text: node.getText().replace(/\s+/g, ' '),
        });
    }
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

/** The same of a component, in its script and in its markup. */
export function joinsOfWordsIn(component: string): { readonly line: number; readonly text: string }[] {
  const lineOf = (at: number) => component.slice(0, at).split('\n').length;
  const root = parseSvelte(component, { modern: true });
  const found: { line: number; text: string }[] = [];
  const take = (start: number, end: number, isExpression: boolean) => {
    const code = component.slice(start, end);
    for (const { line, text } of joinsOfWords(isExpression ? `(\n${code}\n)` : code))
      found.push({ line: lineOf(start) + line - (isExpression ? 2 : 1), text });
  };
  const look = (node: unknown): void => {
    if (Array.isArray(node)) {
      for (const one of node) look(one);
      return;
    }
    if (typeof node !== 'object' || node === null) return;
    const { type, start, end } = node as { type?: unknown; start?: unknown; end?: unknown };
    if (type === 'Text' && 'data' in node && BETWEEN_PLACES.test(String(node.data)))
      found.push({ line: lineOf(Number(start)), text: component.slice(Number(start), Number(end)).trim() });
    if (
      (type === 'CallExpression' || type === 'TemplateLiteral') &&
      typeof start === 'number' &&
      typeof end === 'number'
    ) {
      take(start, end, true);
      return;
    }
    for (const inner of Object.values(node)) look(inner);
  };
  for (const one of [root.module, root.instance])
    if (one) {
      const { start, end } = one.content as unknown as { start: number; end: number };
      take(start, end, false);
    }
  look(root.fragment.nodes);
  return found;
}

/** Texts of a component that are no messages: bare in its markup, in attributes that people read, or in its script. */
export function bareTexts(source: string): { readonly line: number; readonly text: string }[] {
  const lineOf = (at: number) => source.slice(0, at).split('\n').length;
  const root = parseSvelte(source, { modern: true });
  const found: { line: number; text: string }[] = [];
  const script = ({ start, end }: { start: number; end: number }) =>
    found.push(
      // An expression in brackets of its own: an object is none on its own.
      ...bareLiterals(`(\n${source.slice(start, end)}\n)`).map(({ line, text }) => ({
        line: lineOf(start) + line - 2,
        text,
      })),
    );
  const look = (node: unknown, shown: boolean): void => {
    if (Array.isArray(node)) {
      for (const one of node) look(one, shown);
      return;
    }
    if (typeof node !== 'object' || node === null || !('type' in node)) return;
    const known = node as AST.TemplateNode | AST.ExpressionTag | AST.Script;
    if (known.type === 'Text') {
      if (shown && /[A-Za-z]/.test(known.data))
        found.push({ line: lineOf(known.start), text: known.data.trim() });
      return;
    }
    if (known.type === 'Attribute') {
      if (!NEVER_SHOWN.test(known.name) || SHOWN_ATTRIBUTES.has(known.name))
        look(known.value, SHOWN_ATTRIBUTES.has(known.name));
      return;
    }
    if (known.type === 'ExpressionTag') {
      script(known.expression as unknown as { start: number; end: number });
      return;
    }
    for (const [name, inner] of Object.entries(known)) {
      if (name === 'attributes') look(inner, false);
      else if (name !== 'expression' && name !== 'css') look(inner, true);
    }
  };
  for (const one of [root.module, root.instance])
    if (one) {
      const { start, end } = one.content as unknown as { start: number; end: number };
      found.push(
        ...bareLiterals(source.slice(start, end)).map(({ line, text }) => ({
          line: lineOf(start) + line - 1,
          text,
        })),
      );
    }
  look(root.fragment.nodes, true);
  return found;
}
