import path from 'node:path';
import { setTimeout as after } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { isNightly } from '../nightly.ts';
import { startStationProcess, type StationProcess } from '../processes/station-process.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { figure } from './figures.ts';

const CLIENTS = isNightly ? 50 : 6;
/** Answers of each client; counted, not timed, so that a slow machine plays the same script. */
const ANSWERS = isNightly ? 40 : 2;
/** Between two answers somebody looks at a printer. */
const PAUSE_MS = isNightly ? 5000 : 0;
/** Clients that send from the same revision of one case, and how often. */
const RIVALS = 3;
const ROUNDS = isNightly ? 60 : 3;

const complaints = [{ observation: 'popping-while-loading', value: 'heavy' }];
const ANSWERED = ['vapour-at-head', 'bubbly-free-air-extrusion'];

it(`${CLIENTS} clients at once: every answer is taken or refused in words, and none is lost; on one case one is taken`, async () => {
  const station = await startStationProcess(path.join(temporaryFolder(), 'casebook.sqlite'));
  const tookMs: number[] = [];
  const began = performance.now();
  const revisions = await Promise.all(Array.from({ length: CLIENTS }, () => playedBy(station, tookMs)));
  const seconds = (performance.now() - began) / 1000;
  const list = await station.call('case:list', { limit: 200 });
  if (!list.ok) throw new Error(list.error.message);
  expect(list.value.total).toBe(CLIENTS);
  for (const { caseId, revision } of revisions) {
    const view = await station.call('case:view', { caseId });
    expect(view.ok && view.value.revision).toBe(revision);
  }
  const sorted = tookMs.toSorted((a, b) => a - b);
  const at = (share: number) => `${Math.round(sorted[Math.floor(share * (sorted.length - 1))] ?? 0)} ms`;
  figure(
    `${CLIENTS} clients, ${PAUSE_MS / 1000} s pause`,
    `${(sorted.length / seconds).toFixed(1)} calls/s, answer p50 ${at(0.5)}, p99 ${at(0.99)}, 0 errors`,
  );
  await rivalsOnOneCase(station);
  await station.stop();
}, 3_600_000);

/** Opens a case and answers; returns the revision that was acknowledged last. */
async function playedBy(station: StationProcess, tookMs: number[]) {
  const opened = await station.call('case:open', { complaints });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  let revision = 1;
  for (let answer = 0; answer < ANSWERS; answer++) {
    const observation = ANSWERED[answer % ANSWERED.length] ?? '';
    const began = performance.now();
    const sent = await station.call('case:send', {
      caseId,
      revision,
      event:
        answer === 0
          ? { kind: 'danger-answered', present: [] }
          : { kind: 'answered', observation, value: answer % 4 < 2 ? 'slight' : 'heavy' },
    });
    tookMs.push(performance.now() - began);
    if (!sent.ok) throw new Error(`answer ${answer}: ${sent.error.message}`);
    revision += 1;
    await after(PAUSE_MS);
  }
  return { caseId, revision };
}

/** Rivals send from the same revision: one is taken, the others are told how it stands. */
async function rivalsOnOneCase(station: StationProcess): Promise<void> {
  const opened = await station.call('case:open', { complaints });
  if (!opened.ok) throw new Error(opened.error.message);
  const { caseId } = opened.value;
  let stale = 0;
  for (let revision = 1; revision <= ROUNDS; revision++) {
    const replies = await Promise.all(
      Array.from({ length: RIVALS }, (_, rival) =>
        station.call('case:send', { caseId, revision, event: { kind: 'noted', text: `rival ${rival}` } }),
      ),
    );
    expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
    for (const reply of replies)
      if (!reply.ok) {
        expect(reply.error).toMatchObject({ code: 'stale', current: { caseId, revision: revision + 1 } });
        stale += 1;
      }
  }
  figure(
    'same case',
    `${RIVALS} clients x ${ROUNDS}: one winner each, ${stale} stale, each with the current view`,
  );
}
