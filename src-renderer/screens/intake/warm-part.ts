import type { HeaterReport } from '../../../src-core/contract/job-report.ts';

type Point = HeaterReport['points'][number];

const WARM_WITHIN_C = 10;

/**
 * The readings from where the heater is warm on: a swing of a few degrees would not be seen beside the heating up.
 * Null where it never gets warm, or only in the second half, so that the way there is what the log shows.
 */
export function warmPart(points: readonly Point[]): readonly Point[] | null {
  const first = points.findIndex(
    ({ actualC, targetC }) => targetC > 0 && Math.abs(actualC - targetC) <= WARM_WITHIN_C,
  );
  return first >= 0 && first < points.length / 2 ? points.slice(first) : null;
}
