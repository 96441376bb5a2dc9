import { CONDITION } from '../../contract/relied-on-conditions.ts';
import type { Condition } from '../../knowledge/schema.ts';
import type { WordBook } from '../word-book.ts';
import type { ConditionChip } from './chips.ts';
import type { Clause } from './clauses.ts';
import { createPhraseSpotter } from './spot-phrases.ts';

type Unit = 'mm' | '°C' | '°F' | '%' | '%RH' | 'h' | 'mm³/s';

interface Mention {
  readonly value: number;
  readonly unit: Unit | null;
  readonly from: number;
  readonly to: number;
}

// A number that is a part of a word ("A-12", "v2") or of a span ("1-2 mm") is none of a circumstance.
const NUMBER =
  /(?<![\p{L}\d.,/-])(\d+(?:[.,]\d+)?)(?![\d/]|[-–]\d)\s*(mm\s*(?:³|3|\^3)\s*\/\s*s|mm\b|%\s*(?:RH|r\.h\.|humidity)|%|percent\b|°?\s*C\b|°?\s*F\b|°|deg(?:rees?)?\b(?:\s*[CF]\b|\s*(?:celsius|fahrenheit))?|hours?\b|hrs?\b|h\b|days?\b|weeks?\b)?/giu;
/** "235/75 C": nozzle and bed. */
const NOZZLE_AND_BED = /(?<![\d.])(\d{3})\s*\/\s*(\d{2,3})\s*(?:°?\s*C|deg(?:rees?)?)?(?![\d.])/giu;
/** How many characters may lie between a number and the word that tells what it is. */
const NEAR = 24;

/** Reads the numbers of a clause that say a circumstance: nozzle size, temperatures, humidity, hours in the open ... */
export function createNumberReader(conditions: readonly Condition[], book: WordBook) {
  const byId = new Map(conditions.map((condition) => [condition.id, condition]));
  const said = book.words.numbers.flatMap((one) => {
    const number = byId.get(one.condition)?.number;
    return number ? [{ ...one, number }] : [];
  });
  const spotNear = createPhraseSpotter(
    said.flatMap(({ condition, near }) => near.map((phrase) => ({ phrase, means: condition }))),
    book,
  );
  const relative = new Set(
    book.words.said.relative.flatMap((phrase) => book.unitsOf(phrase).map(({ token }) => token)),
  );

  return (clause: Clause): ConditionChip[] => {
    const chips: ConditionChip[] = [];
    const from = clause.words[0]?.from ?? 0;
    const text = clause.text.slice(from, clause.words.at(-1)?.to);
    const take = (condition: string, value: number, place: { from: number; to: number }, score: number) => {
      const number = byId.get(condition)?.number;
      if (!number || value < number.min || value > number.max) return;
      clause.use(place);
      chips.push({
        kind: 'condition',
        id: condition,
        value,
        said: clause.text.slice(place.from, place.to).trim(),
        places: [place],
        score,
        isSure: true,
      });
    };
    for (const match of text.matchAll(NOZZLE_AND_BED)) {
      const place = { from: from + match.index, to: from + match.index + match[0].length };
      take(CONDITION.nozzleTemperature, Number(match[1]), place, 0.9);
      take(CONDITION.plateTemperature, Number(match[2]), place, 0.9);
    }
    const hints = spotNear(clause.words);
    for (const mention of mentionsIn(text, from)) {
      // "10 degrees hotter" is a comparison, not a setting.
      const next = clause.words.find((word) => word.from >= mention.to);
      if (next && book.unitsOfWords([next]).some(({ token }) => relative.has(token))) continue;
      const near = hints
        .flatMap((hint) =>
          hint.means.map((condition) => ({ condition, hint, gap: gapBetween(hint, mention) })),
        )
        .filter(({ condition, gap }) => gap <= NEAR && fits(mention, byId.get(condition)?.number?.unit))
        .sort((a, b) => a.gap - b.gap)[0];
      if (near) {
        const place = {
          from: Math.min(mention.from, near.hint.from),
          to: Math.max(mention.to, near.hint.to),
        };
        const value = inUnit(mention, byId.get(near.condition)?.number?.unit);
        take(near.condition, value, near.gap <= 2 ? place : mention, 0.9);
        continue;
      }
      const alone = said.filter(
        ({ alone, number }) =>
          alone &&
          mention.unit !== null &&
          fits(mention, number.unit) &&
          inUnit(mention, number.unit) >= alone.atLeast &&
          inUnit(mention, number.unit) < alone.below,
      );
      const [only] = alone;
      if (only && alone.length === 1) take(only.condition, inUnit(mention, only.number.unit), mention, 0.8);
    }
    return chips;
  };
}

function mentionsIn(text: string, offset: number): Mention[] {
  return [...text.matchAll(NUMBER)].map((match) => {
    const [whole, digits = '', rawUnit = ''] = match;
    const written = rawUnit.toLowerCase().replace(/\s/gu, '');
    const times = written.startsWith('day') ? 24 : written.startsWith('week') ? 168 : 1;
    return {
      value: Number(digits.replace(',', '.')) * times,
      unit: unitOf(written),
      from: offset + match.index,
      to: offset + match.index + whole.trimEnd().length,
    };
  });
}

function unitOf(written: string): Unit | null {
  if (written === '') return null;
  if (written.startsWith('mm') && written.length > 2) return 'mm³/s';
  if (written === 'mm') return 'mm';
  if (/^(%|percent)$/u.test(written)) return '%';
  if (written.startsWith('%')) return '%RH';
  if (/f(ahrenheit)?$/u.test(written)) return '°F';
  return /^(°|deg|c)/u.test(written) ? '°C' : 'h';
}

/** Whether a number of this unit can be meant; one without a unit fits all but hours. */
function fits({ unit }: Mention, wanted: string | undefined): boolean {
  if (wanted === undefined) return false;
  if (unit === null) return wanted !== 'h';
  if (unit === '°F') return wanted === '°C';
  return unit === wanted || (unit === '%' && wanted === '%RH');
}

function inUnit({ value, unit }: Mention, wanted: string | undefined): number {
  return unit === '°F' && wanted === '°C' ? Math.round(((value - 32) * 5) / 9) : value;
}

function gapBetween(a: { from: number; to: number }, b: { from: number; to: number }): number {
  return Math.max(0, a.from - b.to, b.from - a.to);
}
