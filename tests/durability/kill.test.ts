import path from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { expect, it } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { seededRandom } from '../../src-core/training/seeded-random.ts';
import { figure } from '../attack/figures.ts';
import { isNightly } from '../nightly.ts';
import { startStationProcess, type StationProcess } from '../processes/station-process.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { temporaryFolder } from '../temporary-folder.ts';

/** Few enough for every run; the nightly one plays more, and `npm run durability -- KILLS` as many as one likes. */
const KILLS = Number(process.env['BEADWRIGHT_KILLS'] ?? (isNightly ? 400 : 6));
/** A hang has to end some time; how quick the machine is must not matter. */
const LIMIT_PER_KILL_MS = 120_000;
/** Two hosts, each on a casebook of its own, so that both cores are used. */
const LANES = 2;
/** Most events acknowledged between two kills. */
const MOST_EVENTS = 6;
/**
 * The kill then comes within this many times the last event's own duration: before, while and after the
 * next one is written. Counted in events, not in milliseconds, so that a slow machine plays the same script.
 */
const LONGEST_WAIT_EVENTS = 1.5;

/** One scripted case, in a circle: checked, remedied without a cure, checked again, undone, parked, taken up, closed. */
function script(remedy: string): CaseEvent[] {
  return [
    { kind: 'danger-answered', present: [] },
    { kind: 'answered', observation: 'vapour-at-head', value: 'slight' },
    { kind: 'answered', observation: 'bubbly-free-air-extrusion', value: 'heavy' },
    { kind: 'undone' },
    { kind: 'noted', text: 'Looked again under the lamp' },
    { kind: 'remedy-chosen', remedy },
    { kind: 'step-ticked', step: 0, isDone: true },
    { kind: 'remedy-done' },
    { kind: 'verified', outcome: 'not-cured' },
    { kind: 'parked', note: 'End of shift' },
    { kind: 'resumed' },
    {
      kind: 'closed',
      causes: [{ cause: 'wet-filament' }],
      practice: null,
      minutesLost: 30,
      gramsScrapped: 5,
      note: '',
    },
  ];
}

interface Progress {
  caseId: string | null;
  /** Events acknowledged so far, the opening included. */
  acknowledged: number;
  /** How long the host took over the last event it acknowledged. */
  lastEventMs: number;
}

/** An answer of the host that is not a success: a finding, unlike the connection breaking off. */
class RefusedByHost extends Error {}

/** Plays the script on until the host is gone; counts only what was acknowledged. */
async function playUntilKilled(
  station: StationProcess,
  progress: Progress,
  events: readonly CaseEvent[],
  onAcknowledged: () => void,
): Promise<void> {
  try {
    for (;;) {
      const began = performance.now();
      const caseId = progress.caseId;
      const event = caseId === null ? undefined : events[progress.acknowledged - 1];
      if (caseId === null || event === undefined) {
        const opened = await station.call('case:open', {
          complaints: [{ observation: 'popping-while-loading', value: 'heavy' }],
        });
        if (!opened.ok) throw new RefusedByHost(opened.error.message);
        progress.caseId = opened.value.caseId;
        progress.acknowledged = 1;
        progress.lastEventMs = performance.now() - began;
        onAcknowledged();
        continue;
      }
      const sent = await station.call('case:send', { caseId, revision: progress.acknowledged, event });
      if (!sent.ok) throw new RefusedByHost(sent.error.message);
      progress.acknowledged += 1;
      progress.lastEventMs = performance.now() - began;
      onAcknowledged();
    }
  } catch (error) {
    // The connection breaking off is what the kill does; an answer that is no success must never come.
    if (error instanceof RefusedByHost) throw error;
  }
}

/*
 * What this shows: a process that dies at any moment, with the machine running on, loses nothing acknowledged. The page
 * cache outlives the process, so it would show the same with synchronous off: power-cut.test.ts is about that.
 */
it(
  `loses nothing acknowledged when the host is killed ${KILLS} times at random moments, and the case goes on where it was`,
  { timeout: KILLS * LIMIT_PER_KILL_MS },
  async () => {
    const knowledge = shippedKnowledge();
    const remedy =
      [...knowledge.remedies.values()].find((one) =>
        one.removes.some(({ cause }) => cause === 'wet-filament'),
      )?.id ?? '';
    const folder = temporaryFolder();
    const lanes = Array.from({ length: LANES }, (_, lane) =>
      killAgainAndAgain(
        path.join(folder, `lane-${lane}`, 'casebook.sqlite'),
        4711 + lane,
        script(remedy),
        KILLS / LANES,
      ),
    );
    const kept = await Promise.all(lanes);
    // In a long run some kills must have hit between writing and acknowledging, or the moments were not random enough.
    const sum = (of: (lane: (typeof kept)[number]) => number) => kept.reduce((all, one) => all + of(one), 0);
    if (KILLS >= 200) expect(sum((lane) => lane.keptUnacknowledged)).toBeGreaterThan(0);
    const played = sum((lane) => lane.acknowledged);
    figure('kill -9', `${KILLS} kills, ${played} events acknowledged, 0 lost`);
    // The script was really played: cases were closed on the way, again and again.
    // Twelve events a case, three between two kills on average.
    expect(sum((lane) => lane.closed)).toBeGreaterThanOrEqual(Math.max(1, Math.floor(KILLS / 10)));
  },
);

/** Starts, plays and kills a host over one casebook; returns how many events were on disk though not acknowledged, and how many cases are closed. */
async function killAgainAndAgain(
  file: string,
  seed: number,
  events: readonly CaseEvent[],
  kills: number,
): Promise<{ readonly keptUnacknowledged: number; readonly closed: number; readonly acknowledged: number }> {
  const random = seededRandom(seed);
  const progress: Progress = { caseId: null, acknowledged: 0, lastEventMs: 50 };
  const closedCases = new Set<string>();
  let keptUnacknowledged = 0;
  let acknowledged = 0;

  for (let kill = 0; kill < kills; kill++) {
    const station = await startStationProcess(file);
    if (progress.caseId !== null) {
      const view = await station.call('case:view', { caseId: progress.caseId });
      if (!view.ok) throw new Error(`after kill ${kill}: ${view.error.message}`);
      // The event under way when the process died may or may not be there; nothing acknowledged may be missing.
      expect(view.value.revision).toBeGreaterThanOrEqual(progress.acknowledged);
      expect(view.value.revision).toBeLessThanOrEqual(progress.acknowledged + 1);
      if (view.value.revision > progress.acknowledged) keptUnacknowledged++;
      progress.acknowledged = view.value.revision;
      if (view.value.state === 'closed') closedCases.add(progress.caseId);
    }
    let left = Math.floor(random() * (MOST_EVENTS + 1));
    const { promise: enoughPlayed, resolve: enough } = Promise.withResolvers<true>();
    if (left === 0) enough(true);
    const playing = playUntilKilled(station, progress, events, () => {
      left -= 1;
      acknowledged += 1;
      if (left === 0) enough(true);
    });
    // A refusal ends the playing early: raced, so that it is reported instead of waited for.
    await Promise.race([enoughPlayed, playing]);
    await after(random() * LONGEST_WAIT_EVENTS * progress.lastEventMs);
    await station.killAtOnce();
    await playing;
  }

  const station = await startStationProcess(file);
  const list = await station.call('case:list', { limit: 200 });
  if (!list.ok) throw new Error(list.error.message);
  for (const caseId of closedCases)
    expect(list.value.rows.find((row) => row.caseId === caseId)?.state).toBe('closed');
  const exported = await station.call('case:export', { caseIds: null });
  if (!exported.ok) throw new Error(exported.error.message);
  expect(exported.value.count).toBe(list.value.total);
  const closed = list.value.rows.filter((row) => row.state === 'closed').length;
  await station.stop();
  return { keptUnacknowledged, closed, acknowledged };
}
