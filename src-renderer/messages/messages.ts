import { formatToParts, type Formatters } from 'intl-messageformat';
import { languageOfPage, locale, type Pattern } from './language.ts';
import type { Value, ValuesOf } from '../../src-core/words/pattern-values.ts';

/** A piece of a text with marked words: `<link>casebook</link>` is `{ tag: 'link', words: 'casebook' }`. */
export type Piece = string | { readonly tag: string; readonly words: string };

type Shown<S> = S extends `${string}</${string}>${string}` ? readonly Piece[] : string;
type Message<S extends string> =
  unknown extends ValuesOf<S> ? () => Shown<S> : (values: ValuesOf<S>) => Shown<S>;

const numberFormats = new Map<string, Intl.NumberFormat>();
const pluralRules = new Map<string, Intl.PluralRules>();

function keptIn<T>(kept: Map<string, T>, key: string, make: () => T): T {
  const there = kept.get(key) ?? make();
  kept.set(key, there);
  return there;
}

const formatters: Formatters = {
  getNumberFormat: () => keptIn(numberFormats, locale(), () => new Intl.NumberFormat(locale())),
  getDateTimeFormat: (...choice) => new Intl.DateTimeFormat(...choice),
  getPluralRules: (_tags, choice) =>
    keptIn(pluralRules, `${locale()} ${choice?.type ?? ''}`, () => new Intl.PluralRules(locale(), choice)),
};

function piecesOf(pattern: Pattern, values: Readonly<Record<string, Value>>): Piece[] {
  if (typeof pattern === 'string') {
    const { parse } = languageOfPage();
    if (parse === null || !/[{<']/.test(pattern)) return [pattern];
    return piecesOf(parse(pattern), values);
  }
  const tags = new Proxy<Record<string, unknown>>(values, {
    has: () => true,
    get: (known, name) =>
      typeof name === 'string' && !(name in known)
        ? (words: readonly string[]) => ({ tag: name, words: words.join('') })
        : known[name as string],
  });
  const parts = formatToParts<Piece>(
    [...pattern],
    locale(),
    formatters,
    { number: {}, date: {}, time: {} },
    tags as Record<string, Piece>,
  );
  return parts.map(({ value }) => value);
}

/** One text in the page's language by its id; in English where that language lacks it. */
export function textInLanguage(
  id: string,
  english: Pattern,
  values: Readonly<Record<string, Value>>,
): readonly Piece[] {
  return piecesOf(languageOfPage().texts.get(id) ?? english, values);
}

/**
 * The texts of one part of the screens, as functions: `m.openCases({ count: 3 })`. Keys and placeholders are checked by type; a text
 * with marked words gives pieces for `Rich.svelte`. English stands in the source; another language brings the same keys in a file.
 */
export function messages<const Texts extends Readonly<Record<string, string>>>(
  part: string,
  texts: Texts,
): { readonly [Key in keyof Texts]: Message<Texts[Key]> } {
  const said = Object.entries<Pattern>(texts).map(([key, english]) => {
    const say = (values: Readonly<Record<string, Value>> = {}) => {
      const pieces = textInLanguage(`${part}.${key}`, english, values);
      return pieces.some((piece) => typeof piece !== 'string') ? pieces : pieces.join('');
    };
    return [key, say] as const;
  });
  return Object.fromEntries(said) as never;
}
