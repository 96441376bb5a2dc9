import { describe, expect, it } from 'vitest';
import type { Recurrence } from '../../src-core/contract/recurrence-view.ts';
import { RecurrenceReport } from '../../src-renderer/screens/recurrence/recurrence-report.svelte.ts';
import { scriptedHost } from './scripted-host.ts';

describe('the days of what comes back', () => {
  it('are taken anew where the period or the clock by which they are counted changes, and not where only groups do', async () => {
    let timeZone = 'Europe/Berlin';
    const { host } = scriptedHost(({ name, input }) => {
      if (name === 'lead:save-time-zone') ({ timeZone } = input as { timeZone: string });
      return { ok: true, value: { timeZone, rows: [] } as unknown as Recurrence };
    });
    const report = new RecurrenceReport(host, () => new Date('2026-03-02T08:00:00.000Z'));
    await report.read();
    const first = report.days;
    await report.group('material');
    expect(report.days).toBe(first);
    await report.saveTimeZone('Asia/Tokyo');
    expect(report.days).toEqual(first);
    expect(report.days).not.toBe(first);
    await report.choose({ kind: 'all', fromDay: '', toDay: '' });
    expect(report.days).toEqual({ fromDay: null, toDay: null });
  });
});
