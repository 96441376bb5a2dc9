import { told } from '../display/told.ts';
import type { Timeline } from '../../src-core/contract/casebook-view.ts';
import { percent } from '../wording/format.ts';
import { m } from '../messages/en/charts.ts';

type Step = Pick<Timeline['steps'][number], 'seq' | 'text' | 'isUndone' | 'candidates'>;

/** How likely one cause was, step by step. */
export interface OddsCourse {
  readonly cause: string;
  readonly label: string;
  /** By the step's index; null where it was not among the first. */
  readonly points: readonly (number | null)[];
}

/** As many lines as can be told apart. */
const MOST_LINES = 4;

/** Steps that count: what was taken back moved nothing in the end. */
export function stepsInForce<T extends Step>(steps: readonly T[]): readonly T[] {
  return steps.filter(({ isUndone, candidates }) => !isUndone && candidates.length > 0);
}

/** The causes that ever stood highest, the one that ended highest first. */
export function oddsCourses(steps: readonly Step[]): readonly OddsCourse[] {
  const labels = new Map(
    steps.flatMap(({ candidates }) => candidates.map(({ cause, label }) => [cause, label])),
  );
  const courses = [...labels].map(([cause, label]) => ({
    cause,
    label,
    points: steps.map(({ candidates }) => candidates.find((one) => one.cause === cause)?.probability ?? null),
  }));
  const peak = ({ points }: OddsCourse) => Math.max(...points.map((one) => one ?? 0));
  const end = ({ points }: OddsCourse) => points.at(-1) ?? 0;
  return courses
    .toSorted((a, b) => peak(b) - peak(a))
    .slice(0, MOST_LINES)
    .sort((a, b) => end(b) - end(a));
}

/** What the lines come to: "Wet filament is likeliest at the end, 97 %. It became so at step 4: ...". */
export function oddsSentence(steps: readonly Step[]): string {
  const last = steps.at(-1)?.candidates[0];
  if (!last) return '';
  const turn = steps.findLastIndex(({ candidates }) => candidates[0]?.cause !== last.cause) + 1;
  const since =
    turn === 0
      ? m.itLedFromTheStart()
      : m.itTookTheLeadWithBefore({
          steps: told(steps[turn]?.text ?? ''),
          label: steps[turn - 1]?.candidates[0]?.label ?? m.another(),
        });
  return m.isLikeliestAtTheEnd({ last: last.label, percent: percent(last.probability), since });
}
