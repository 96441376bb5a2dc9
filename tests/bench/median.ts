/** Median wall time of `runs` calls in milliseconds, after three that do not count. */
export function medianMs(run: () => unknown, runs = 31): number {
  for (let i = 0; i < 3; i++) run();
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? NaN;
}
