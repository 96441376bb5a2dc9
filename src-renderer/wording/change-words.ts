import { m } from '../messages/en/change-words.ts';

/** A move of a probability since the last answer. */
export interface Change {
  readonly direction: 'up' | 'down' | 'same';
  /** Percentage points, whole, never negative. */
  readonly points: number;
  /** "+12 up", "−3 down", "same"; empty where there was no answer before. */
  readonly text: string;
}

/** The move from `previous` to `probability` (both 0 to 1), rounded as the shown percentages are, so that it adds up. */
export function changeSince(probability: number, previous: number | null): Change {
  if (previous === null) return { direction: 'same', points: 0, text: '' };
  const points = Math.round(probability * 100) - Math.round(previous * 100);
  if (points === 0) return { direction: 'same', points: 0, text: m.same() };
  return points > 0
    ? { direction: 'up', points, text: m.up({ points }) }
    : { direction: 'down', points: -points, text: m.down({ points: -points }) };
}

/** The ranking in one sentence, for the eye and for screen readers: "Wet filament is most likely, 62 %, up 12 points." */
export function rankingSentence(
  first:
    | { readonly label: string; readonly probability: number; readonly previousProbability: number | null }
    | undefined,
  percent: (probability: number) => string,
): string {
  if (!first) return m.nothingCanBeSaidYet();
  const { direction, points } = changeSince(first.probability, first.previousProbability);
  const said = { label: first.label, share: percent(first.probability) };
  if (direction === 'same') return m.first(said);
  return direction === 'up' ? m.firstUp({ ...said, points }) : m.firstDown({ ...said, points });
}
