import { valueTexts } from '../words/en/values.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { levelOfFinding } from '../session/finding-level.ts';
import { valueLabel } from '../session/wording.ts';
import type { Words } from '../words/message.ts';

/** A simulated reading carries no more digits than a shop's instruments. */
const DIGITS = 3;

/** What somebody finds who looks, in words: a grade, a reading in the middle of its band, or what counts as being there. */
export function wordsOfLevel(knowledge: Knowledge, observation: string, level: number): Words {
  const entry = knowledge.observations.get(observation);
  const id = knowledge.levelsOf(observation)[level] ?? 'absent';
  if (!entry) return id;
  if (entry.measure)
    return valueLabel(knowledge, observation, readingIn(knowledge, observation, level) ?? id);
  if (entry.grades) return valueLabel(knowledge, observation, id);
  return level > 0
    ? valueTexts.m.itIsSo({ what: entry.check.countsAsPresent })
    : valueTexts.m.nothingOfThat();
}

/** A reading that lies in the band, in the observation's unit; null where none of few digits does. */
export function readingIn(knowledge: Knowledge, observation: string, level: number): number | null {
  const measure = knowledge.observations.get(observation)?.measure;
  const band = measure?.bands[level];
  if (!measure || !band) return null;
  // An open end reaches as far as the next band is wide, or a tenth of its edge.
  const widths = measure.bands.flatMap(({ from, below }) =>
    from !== undefined && below !== undefined ? [below - from] : [],
  );
  const reach = Math.min(...widths, Math.abs(band.from ?? band.below ?? 0) / 10 || measure.max - measure.min);
  const low = band.from ?? Math.max(measure.min, (band.below ?? measure.max) - reach);
  const high = band.below ?? Math.min(measure.max, (band.from ?? measure.min) + reach);
  const middle = Number(((low + high) / 2).toPrecision(DIGITS));
  return levelOfFinding(knowledge, observation, middle) === level ? middle : null;
}
