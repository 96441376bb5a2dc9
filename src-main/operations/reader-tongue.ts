import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { ENGLISH } from '../../src-core/contract/display-choices.ts';
import type { Reader } from '../../src-core/contract/report-view.ts';
import { sayerIn, type Tongue } from '../../src-core/words/sayer-in.ts';
import type { Sayer } from '../../src-core/words/say-words.ts';
import type { ApplicationContext } from './application-context.ts';

const textsSchema = z.record(z.string(), z.string());
const BRITISH = 'en-GB';

/** How a document is said to its reader, and the tag of the language that it is in. Without a file of that language it is English. */
export async function sayerFor(
  { languagesFolder }: Pick<ApplicationContext, 'languagesFolder'>,
  { language, temperatureUnit }: Reader,
): Promise<{ readonly sayer: Sayer; readonly language: string }> {
  const texts = languagesFolder === null ? null : await textsOf(languagesFolder, language);
  const tongue: Tongue =
    texts === null
      ? { locale: BRITISH, texts: new Map(), temperatureUnit }
      : { locale: language, texts, temperatureUnit };
  return { sayer: sayerIn(tongue), language: tongue.locale };
}

/** The texts of a language (its tag is one, see the contract, so that it names nothing outside the folder); null for English, or where its file cannot be read. */
async function textsOf(folder: string, language: string): Promise<ReadonlyMap<string, string> | null> {
  if (language === ENGLISH) return null;
  try {
    const file = await readFile(path.join(folder, `${language}.json`), 'utf8');
    return new Map(Object.entries(textsSchema.parse(JSON.parse(file))));
  } catch {
    return null;
  }
}
