import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import type { Observation } from '../../src-core/knowledge/schema.ts';
import type { Words } from '../../src-core/knowledge/words-schema.ts';
import { createFinder } from '../../src-core/words/finder.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';

const phrases = z.array(
  z.strictObject({ case: z.string(), says: z.string(), is: z.array(z.string()).min(1).max(4) }),
);
const phrasesSchema = z.strictObject({ phrases, later: phrases });

export interface PhraseRank {
  readonly caseId: string;
  readonly says: string;
  readonly wanted: readonly string[];
  /** Place of the right observation in the search, 1 first; infinite where it was not found. */
  readonly rank: number;
  /** What came before it, or the first five. */
  readonly instead: readonly string[];
  readonly isHeldOut: boolean;
  /** Mapped when the words stood already. */
  readonly isLater: boolean;
}

/** Where each phrase of the real cases finds its observation among all of the guide. Renamed observations count by their former id. */
export function phraseRanks(observations: readonly Observation[], words: Words): PhraseRank[] {
  const text = readFileSync(path.join(import.meta.dirname, 'phrases.yaml'), 'utf8');
  const find = createFinder(observations, createWordBook(words));
  const all = phrasesSchema.parse(parse(text));
  const known = new Set(observations.flatMap(({ id, formerly = [] }) => [id, ...formerly]));
  return [...all.phrases, ...all.later].map((phrase, place) => {
    const { case: caseId, says, is } = phrase;
    for (const id of is)
      if (!known.has(id)) throw new Error(`phrases.yaml, ${caseId}: no observation is called ${id}`);
    const hits = find(says).map(({ entry }) => entry);
    const at = hits.findIndex(({ id, formerly = [] }) => [id, ...formerly].some((one) => is.includes(one)));
    const isLater = place >= all.phrases.length;
    return {
      caseId,
      says,
      wanted: is,
      rank: at < 0 ? Infinity : at + 1,
      instead: hits.slice(0, at < 0 ? 5 : at).map(({ id }) => id),
      isHeldOut: isLater || Number(caseId.slice(1)) % 3 === 1,
      isLater,
    };
  });
}

/** Share of phrases whose observation is among the first `places`. */
export function shareWithin(ranks: readonly PhraseRank[], places: number): number {
  return ranks.filter(({ rank }) => rank <= places).length / ranks.length;
}
