/** An element of a small XML file: elements or text inside, never both. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  readonly text: string;
  readonly line: number;
}

/** What is wrong with a file, and on which line (from 1). */
export class XmlFault extends Error {
  readonly line: number;

  constructor(line: number, message: string) {
    super(message);
    this.line = line;
  }
}

interface OpenElement extends XmlElement {
  readonly children: XmlElement[];
  text: string;
}

const TOKEN =
  /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!DOCTYPE[^[>]*(?:\[[\s\S]*?\]\s*)?>|<(\/?)([A-Za-z][\w.-]*)((?:\s+[\w:.-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>|[^<]+/gy;
const ATTRIBUTE = /([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g;
const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/**
 * The one root element of an XML text. Reads what data files are made of: elements, attributes, text, comments, the
 * five named and the numeric entities; the DOCTYPE is passed over and no entity of its own is taken in. Anything else
 * (CDATA, text beside elements, unclosed tags) is refused with an `XmlFault`.
 */
export function readElements(text: string): XmlElement {
  const root: OpenElement = { name: '', attributes: new Map(), children: [], text: '', line: 1 };
  const open: OpenElement[] = [root];
  let line = 1;
  let at = 0;
  while (at < text.length) {
    TOKEN.lastIndex = at;
    const match = TOKEN.exec(text);
    const top = open.at(-1) ?? root;
    if (!match)
      throw new XmlFault(line, `"${text.slice(at, at + 30).split('\n', 1)[0]}" is no tag that can be read`);
    const [token, slash, name, attributes = '', selfClosing] = match;
    at = TOKEN.lastIndex;
    if (name === undefined) {
      if (!token.startsWith('<')) top.text += token;
    } else if (slash === '/') {
      if (top.name !== name || open.length === 1) {
        throw new XmlFault(
          line,
          `</${name}> closes nothing: ${open.length === 1 ? 'no tag' : `<${top.name}>`} is open`,
        );
      }
      open.pop();
      finish(top);
    } else {
      const element: OpenElement = {
        name,
        attributes: attributesOf(attributes, line),
        children: [],
        text: '',
        line,
      };
      top.children.push(element);
      if (selfClosing !== '/') open.push(element);
    }
    line += token.split('\n').length - 1;
  }
  const unclosed = open.at(-1);
  if (unclosed && unclosed !== root) throw new XmlFault(unclosed.line, `<${unclosed.name}> is never closed`);
  finish(root);
  const [only, second] = root.children;
  if (!only) throw new XmlFault(1, 'there is no element');
  if (second) throw new XmlFault(second.line, `<${second.name}> stands after the end`);
  return only;
}

function finish(element: OpenElement): void {
  element.text = element.text.trim();
  if (element.children.length > 0 && element.text !== '') {
    throw new XmlFault(element.line, `<${element.name || 'file'}> holds both text and elements`);
  }
  element.text = resolved(element.text, element.line);
}

function attributesOf(source: string, line: number): Map<string, string> {
  const attributes = new Map<string, string>();
  for (const [, name = '', double, single] of source.matchAll(ATTRIBUTE)) {
    if (attributes.has(name)) throw new XmlFault(line, `attribute ${name} stands twice`);
    attributes.set(name, resolved(double ?? single ?? '', line));
  }
  return attributes;
}

function resolved(text: string, line: number): string {
  return text.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    const code = /^#(?:x([0-9a-f]+)|(\d+))$/i.exec(name);
    const number = code ? Number.parseInt(code[1] ?? code[2] ?? '', code[1] ? 16 : 10) : NaN;
    const value = number <= 0x10ffff ? String.fromCodePoint(number) : ENTITIES[name];
    if (value === undefined || !whole.endsWith(';'))
      throw new XmlFault(line, `"${whole}" is no known entity`);
    return value;
  });
}
