import { expect, it, onTestFinished, vi } from 'vitest';
import { refusals } from '../../src-core/words/en/refusals.ts';
import { createHostApi } from '../../src-renderer/host/create-host-api.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';

it('a station that is away is said, and the same call sent again goes through once it is back', async () => {
  let isUp = false;
  vi.stubGlobal('fetch', () =>
    isUp
      ? Promise.resolve(new Response(JSON.stringify({ ok: true, value: {} })))
      : Promise.reject(new TypeError('fetch failed')),
  );
  onTestFinished(() => void vi.unstubAllGlobals());
  const host = createHostApi(undefined);
  expect(await host.call('shop:read', {})).toMatchObject({
    ok: false,
    error: { message: expect.stringMatching(/does not answer.*try again/) },
  });
  isUp = true;
  expect((await host.call('shop:read', {})).ok).toBe(true);
});

it('a file goes to the station as the bytes it is, what goes beside them in the address; anything else as JSON', async () => {
  const sent: { readonly address: string; readonly init: RequestInit }[] = [];
  vi.stubGlobal('fetch', (address: string, init: RequestInit) => {
    sent.push({ address, init });
    return Promise.resolve(new Response(JSON.stringify({ ok: true, value: {} })));
  });
  onTestFinished(() => void vi.unstubAllGlobals());
  const host = createHostApi(undefined);
  const bytes = new Uint8Array([255, 216, 0, 34]);
  await host.call('job:piece', { jobId: 'j1', at: 0, bytes });
  await host.call('case:timeline', { caseId: 'c1' });
  const [file, json] = sent;
  expect(new URL(file?.address ?? '', 'http://station').searchParams.get('input')).toBe(
    '{"jobId":"j1","at":0}',
  );
  expect(file?.init).toMatchObject({ headers: { 'content-type': 'application/octet-stream' }, body: bytes });
  expect(json).toMatchObject({ address: '/api/case:timeline', init: { body: '{"caseId":"c1"}' } });
});

it('a call that was sent gets there though the page is left; of those a browser takes only so many and so much', async () => {
  const kept: boolean[] = [];
  const answers: (() => void)[] = [];
  vi.stubGlobal('fetch', (_address: string, { keepalive }: RequestInit) => {
    kept.push(keepalive === true);
    return new Promise((resolve) =>
      answers.push(() => resolve(new Response(JSON.stringify({ ok: true, value: {} })))),
    );
  });
  onTestFinished(() => void vi.unstubAllGlobals());
  const host = createHostApi(undefined);
  const note = (text: string) =>
    host.call('case:send', { caseId: 'c1', revision: 1, event: { kind: 'noted', text } });
  // Fetch standard: the bodies of all that are under way together may be 64 KiB.
  const underWay = [
    note('short'),
    note('x'.repeat(70_000)),
    ...Array.from({ length: 9 }, () => note('short')),
  ];
  expect(kept).toEqual([true, false, ...Array.from({ length: 7 }, () => true), false, false]);
  for (const answer of answers) answer();
  await Promise.all(underWay);
  const later = note('short');
  answers.at(-1)?.();
  await later;
  expect(kept.at(-1)).toBe(true);
});

it('a refusal is said in the language of the page, from its id and its values', async () => {
  const error = {
    code: 'refused',
    message: 'Case 7 came from this one: it cannot be the other way round.',
    said: refusals.otherWayRound({ number: 7 }),
  };
  vi.stubGlobal('fetch', () => Promise.resolve(new Response(JSON.stringify({ ok: false, error }))));
  onTestFinished(() => {
    vi.unstubAllGlobals();
    speak('en', {}, parse);
  });
  const host = createHostApi(undefined);
  const answer = await host.call('shop:read', {});
  expect(answer).toEqual({ ok: false, error });
  speak('de', { 'refusals.otherWayRound': 'Fall {number} kam aus diesem' }, parse);
  expect(await host.call('shop:read', {})).toMatchObject({ error: { message: 'Fall 7 kam aus diesem' } });
});
