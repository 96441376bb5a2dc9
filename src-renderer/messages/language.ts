import { ENGLISH, LANGUAGE_TAG } from '../../src-core/contract/display-choices.ts';
import type { MessageFormatElement } from '@formatjs/icu-messageformat-parser';

/** A text in the syntax of ICU MessageFormat, or what the build has made of it. */
export type Pattern = string | readonly MessageFormatElement[];

/** Parses a pattern; the build leaves it out of the first load, since English comes parsed. */
export type ParsePattern = (pattern: string) => readonly MessageFormatElement[];

const STORE_KEY = 'beadwright.language';

interface Language {
  readonly tag: string;
  /** Texts by namespace and key ("bench.noOpenCases"). What is missing is shown in English. */
  readonly texts: ReadonlyMap<string, string>;
  readonly parse: ParsePattern | null;
}

let language: Language = { tag: ENGLISH, texts: new Map(), parse: null };

/** The language of this page. It stays until the page is loaded anew, so that tables of words may be made once. */
export function languageOfPage(): Language {
  return language;
}

/** What Intl writes dates and numbers by; English is written as in Britain, with 24 hours and the day first. */
export function locale(): string {
  return language.tag === ENGLISH ? 'en-GB' : language.tag;
}

/** Languages that can be chosen: English and those that there is a file for in `public/languages/`. */
export const LANGUAGES: readonly string[] = [
  ENGLISH,
  ...(typeof __LANGUAGES__ === 'undefined' ? [] : __LANGUAGES__),
];

/** What speakers of a language call it: "Deutsch". */
export function nameOfLanguage(tag: string): string {
  return new Intl.DisplayNames([tag], { type: 'language' }).of(tag) ?? tag;
}

/** Keeps the language for this device; the page is to be loaded anew. */
export function keepLanguage(tag: string, store: Storage): void {
  if (tag === ENGLISH) store.removeItem(STORE_KEY);
  else store.setItem(STORE_KEY, tag);
}

/** Brings the texts of the language kept for this device, before any screen stands. Without them the page is in English. */
export async function loadLanguage(store: Storage | null): Promise<void> {
  try {
    const tag = store?.getItem(STORE_KEY) ?? ENGLISH;
    if (tag === ENGLISH || !LANGUAGE_TAG.test(tag)) return;
    const [{ parse }, response] = await Promise.all([
      import('./parse-pattern.ts'),
      fetch(`languages/${tag}.json`),
    ]);
    if (!response.ok) return;
    speak(tag, (await response.json()) as Record<string, string>, parse);
    document.documentElement.lang = tag;
  } catch {
    // No store, or the file could not be brought: English serves.
  }
}

/** Takes the texts of a language. */
export function speak(tag: string, texts: Readonly<Record<string, string>>, parse: ParsePattern): void {
  language = { tag, texts: new Map(Object.entries(texts)), parse };
}
