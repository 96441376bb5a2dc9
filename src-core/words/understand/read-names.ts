import { plain, type WordBook } from '../word-book.ts';
import type { RecordChip } from './chips.ts';
import type { Clause } from './clauses.ts';

/** A printer or spool of the shop: its name, which may begin with a code ("A-12 black ABS"). */
export interface NamedRecord {
  readonly id: string;
  readonly label: string;
}

const CODE = /(?<![\p{L}\d])(\p{L}{1,4})[\s-]?(\d{1,5})(?![\p{L}\d])/gu;

/** Reads printers and spools that are named in a clause, whole or by their code. */
export function createNameReader(kind: 'printer' | 'spool', records: readonly NamedRecord[], book: WordBook) {
  const known = records.map((record) => ({
    record,
    words: book.wordsOf(record.label).map((word) => word.plain),
    codes: codesIn(record.label).map(({ code }) => code),
  }));

  return (clause: Clause): RecordChip[] => {
    const words = clause.words.map((word) => word.plain);
    const begin = clause.words[0]?.from ?? 0;
    const codes = codesIn(clause.text.slice(begin, clause.words.at(-1)?.to));
    const chips: RecordChip[] = [];
    const take = (record: NamedRecord, from: number, to: number, isSure: boolean) => {
      if (isSure) clause.use({ from, to });
      chips.push({
        kind,
        id: record.id,
        said: clause.text.slice(from, to),
        places: [{ from, to }],
        score: isSure ? 1 : 0.5,
        isSure,
      });
    };
    for (const { record, words: name, codes: own } of known) {
      const at = words.findIndex((_, start) => name.every((word, i) => words[start + i] === word));
      const first = clause.words[at];
      const last = clause.words[at + name.length - 1];
      if (at >= 0 && first && last && name.length > 0) {
        take(record, first.from, last.to, true);
        continue;
      }
      const code = codes.find((one) => own.includes(one.code));
      if (code) take(record, begin + code.from, begin + code.to, true);
    }
    if (chips.length > 0) return chips;
    // "black ABS": offered where just one spool is called so.
    const called = known.filter(({ words: name, codes: own }) => {
      const rest = own.length > 0 ? name.filter((word) => !/\d/.test(word) && word.length > 1) : [];
      return rest.length >= 2 && rest.every((word) => words.includes(word));
    });
    const [only] = called;
    if (only && called.length === 1) {
      const places = clause.words.filter((word) => only.words.includes(word.plain));
      take(only.record, places[0]?.from ?? begin, places.at(-1)?.to ?? begin, false);
    }
    return chips;
  };
}

function codesIn(text: string): { code: string; from: number; to: number }[] {
  return [...text.matchAll(CODE)].map((match) => ({
    code: plain(`${match[1] ?? ''}${match[2] ?? ''}`),
    from: match.index,
    to: match.index + match[0].length,
  }));
}
