import { expect, it, onTestFinished, vi } from 'vitest';
import { createHostApi } from '../../src-renderer/host/create-host-api.ts';

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
