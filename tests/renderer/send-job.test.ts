import { describe, expect, it } from 'vitest';
import { tableRows, pointAt } from '../../src-renderer/charts/band-plot.ts';
import { isTemperatureLog, sendJob } from '../../src-renderer/files/send-job.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';

/** A host that remembers what it was asked. */
function hostThat(answers: Record<string, unknown>) {
  const asked: { name: string; input: unknown }[] = [];
  const call = (name: string, input: unknown) => {
    asked.push({ name, input });
    return Promise.resolve(answers[name]);
  };
  return { asked, host: { call } as unknown as HostApi };
}

describe('sending a job file', () => {
  const file = new Blob([new Uint8Array(1_200_000).fill(0xe9)]);
  const begun = { ok: true, value: { jobId: 'J' } };

  it('sends every byte once, in order, with progress', async () => {
    const { asked, host } = hostThat({
      'job:begin': begun,
      'job:piece': { ok: true, value: { received: 600_000 } },
      'job:end': { ok: true, value: 'report' },
    });
    const shares: number[] = [];
    await sendJob(host, file, {}, (share) => shares.push(share), new AbortController().signal);
    const pieces = asked
      .filter(({ name }) => name === 'job:piece')
      .map(({ input }) => input as { at: number; bytes: Uint8Array });
    expect(pieces.map(({ at }) => at)).toEqual([0, 524_288, 1_048_576]);
    expect(pieces.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBe(1_200_000);
    expect(pieces[0]?.bytes[0]).toBe(0xe9);
    expect(shares).toEqual([0.5, 0.5, 0.5]);
    expect(asked.at(-1)?.name).toBe('job:end');
  });

  it('drops it at the host when it is stopped, and passes a refusal on', async () => {
    const stop = new AbortController();
    const stopped = hostThat({
      'job:begin': begun,
      'job:piece': { ok: true, value: { received: 1 } },
      'job:drop': { ok: true, value: {} },
    });
    expect(await sendJob(stopped.host, file, {}, () => stop.abort(), stop.signal)).toBeNull();
    expect(stopped.asked.at(-1)?.name).toBe('job:drop');
    const refusal = { ok: false, error: { code: 'bad-request', message: 'line 2 holds a NUL byte' } };
    const refused = hostThat({ 'job:begin': begun, 'job:piece': refusal });
    expect(await sendJob(refused.host, file, {}, () => undefined, new AbortController().signal)).toBe(
      refusal,
    );
  });

  it('tells a temperature log from a job by its beginning', () => {
    expect(isTemperatureLog('ok T:210.3 /215.0 B:60 /60')).toBe(true);
    expect(isTemperatureLog('seconds,actual,target\n0,20,215')).toBe(true);
    expect(isTemperatureLog('; T:210 /215\nG28\nM104 S215')).toBe(false);
    expect(isTemperatureLog('G1 X1 E1')).toBe(false);
  });
});

describe('the table behind a plot', () => {
  const series = [
    { name: 'a', points: Array.from({ length: 100 }, (_, x) => ({ x, low: x, y: x, high: x })) },
  ];

  it('has few rows, the first and the last among them', () => {
    const rows = tableRows(series);
    expect(rows).toHaveLength(12);
    expect([rows[0], rows.at(-1)]).toEqual([0, 99]);
    expect(pointAt({ name: 'a', points: [{ x: 5, low: 1, y: 2, high: 3 }] }, 4)).toBeUndefined();
  });
});
