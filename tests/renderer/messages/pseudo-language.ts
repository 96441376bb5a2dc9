import type { MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import { printAST } from '@formatjs/icu-messageformat-parser/printer.js';
import { parse } from '../../../src-renderer/messages/parse-pattern.ts';
import { englishTexts } from './english-texts.ts';

/** The tag under which a page shows it. */
export const PSEUDO_TAG = 'en-XA';
/** What stands around every text of it: what is outside was never a message. */
export const OPEN = '⟦';
export const CLOSE = '⟧';

/** As much longer than English as other languages are apt to be. */
const LONGER = 0.35;
const LITERAL = 0;
const PLURAL = 6;
const TAG = 8;
const ACCENTED: Readonly<Record<string, string>> = Object.fromEntries(
  [...'aàcçeèiìnñoòsšuùyýzžAÀCÇEÈIÌNÑOÒSŠUÙYÝZŽ'].flatMap((letter, at, all) =>
    at % 2 === 0 ? [[letter, all[at + 1] ?? letter]] : [],
  ),
);

/** A text with its letters accented, longer by a third, in brackets; placeholders, plurals and marks stay as they are. */
export function pseudo(text: string): string {
  let letters = 0;
  const changed = (elements: readonly MessageFormatElement[]): MessageFormatElement[] =>
    elements.map((element) => {
      if (element.type === LITERAL) {
        letters += element.value.length;
        return { ...element, value: element.value.replace(/[a-z]/gi, (one) => ACCENTED[one] ?? one) };
      }
      if (element.type === TAG) return { ...element, children: changed(element.children) };
      if (element.type === PLURAL) {
        const options = Object.entries(element.options).map(
          ([name, option]) => [name, { ...option, value: changed(option.value) }] as const,
        );
        return { ...element, options: Object.fromEntries(options) };
      }
      return element;
    });
  const elements = changed(parse(text));
  const more = ' öö'.repeat(Math.ceil((letters * LONGER) / 3));
  return printAST([
    { type: LITERAL, value: OPEN },
    ...elements,
    { type: LITERAL, value: `${more}${CLOSE}` },
  ] as MessageFormatElement[]);
}

/** The whole catalogue in it, as a file of a language has it. */
export function pseudoLanguage(): Record<string, string> {
  return Object.fromEntries(
    [...englishTexts('screens'), ...englishTexts('core')].flatMap(({ part, texts }) =>
      [...texts].map(([key, text]) => [`${part}.${key}`, pseudo(text)]),
    ),
  );
}
