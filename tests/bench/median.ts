/**
 * Median wall time of `runs` calls in milliseconds, after three that do not count. `prepare` runs before each, untimed,
 * and what it gives is handed to the call.
 */
export function medianMs<T = undefined>(
  run: (prepared: T) => unknown,
  runs = 31,
  prepare: () => T = () => undefined as T,
): number {
  for (let i = 0; i < 3; i++) run(prepare());
  const times = Array.from({ length: runs }, () => {
    const prepared = prepare();
    const start = performance.now();
    run(prepared);
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? NaN;
}
