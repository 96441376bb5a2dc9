import { metShare, type IndexedText, type TextIndex } from '../text-index.ts';
import type { Unit } from '../word-book.ts';
import type { Place } from './chips.ts';

/** How well an entry's text fits what was said. */
export interface Fit {
  readonly entry: number;
  readonly text: IndexedText;
  /** 0 to 1. */
  readonly score: number;
  /** Share of what was said that the text has. */
  readonly share: number;
  /** Share of the text's words that were said, small ones counting a little. */
  readonly textShare: number;
  /** Units of what was said that the text has. */
  readonly units: readonly Unit[];
  readonly places: readonly Place[];
}

/** What the text says counts more than what else was said beside it: one clause may say two things. */
const OF_TEXT = 0.7;
/** What a small word of a text counts of another. */
const SMALL_WORD = 0.35;
const NEARNESS = { label: 1, alsoCalled: 1, ask: 0.8, summary: 0 } as const;

/**
 * The texts that fit these units, best first, one an entry. `weightOf` tells how much each unit of a text counts.
 */
export function fitTexts(
  index: TextIndex,
  units: readonly Unit[],
  weightOf: (unit: Unit) => number = index.weightOf,
): Fit[] {
  const asked = index.readUnits(units);
  const whole = asked.reduce((sum, one) => sum + one.weight, 0);
  const met = new Map<
    IndexedText,
    { share: number; units: Unit[]; tokens: Map<string, number>; telling: boolean }
  >();
  for (const one of asked) {
    for (const [text, { alike, token }] of index.meetings(one)) {
      const known = met.get(text) ?? {
        share: 0,
        units: [] as Unit[],
        tokens: new Map<string, number>(),
        telling: false,
      };
      known.share += (one.weight * alike) / whole;
      known.units.push(one.unit);
      known.tokens.set(token, Math.max(known.tokens.get(token) ?? 0, alike));
      known.telling ||= !one.isLight;
      met.set(text, known);
    }
  }
  const best = new Map<number, Fit>();
  for (const [text, { share, units: used, tokens, telling }] of met) {
    if (!telling) continue;
    const all = text.units.reduce((sum, unit) => sum + weightOf(unit), 0);
    const said = text.units.reduce((sum, unit) => sum + weightOf(unit) * metShare(unit, tokens), 0);
    if (said === 0) continue;
    const countOf = (unit: Unit) => (index.isLight(unit) ? SMALL_WORD : 1);
    const textShare =
      text.units.reduce((sum, unit) => sum + countOf(unit) * metShare(unit, tokens), 0) /
      (text.units.reduce((sum, unit) => sum + countOf(unit), 0) + SMALL_WORD * text.smallWords);
    const ofText = (said / all + textShare) / 2;
    const score = NEARNESS[text.kind] * ofText ** OF_TEXT * share ** (1 - OF_TEXT);
    if ((best.get(text.entry)?.score ?? 0) >= score) continue;
    best.set(text.entry, {
      entry: text.entry,
      text,
      score,
      share,
      textShare,
      units: used,
      places: used.map(({ from, to }) => ({ from, to })),
    });
  }
  return [...best.values()].sort((a, b) => b.score - a.score || a.entry - b.entry);
}
