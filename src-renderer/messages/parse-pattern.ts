import { parse as parseIcu, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';

const parsed = new Map<string, readonly MessageFormatElement[]>();

/** Parses a text in the syntax of ICU MessageFormat. Throws where the syntax is wrong. */
export function parse(pattern: string): readonly MessageFormatElement[] {
  const known = parsed.get(pattern);
  if (known) return known;
  const elements = parseIcu(pattern);
  parsed.set(pattern, elements);
  return elements;
}
