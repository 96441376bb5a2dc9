import { expect, it, onTestFinished, vi } from 'vitest';
import { createHostApi } from '../../src-renderer/host/create-host-api.ts';

it('asks a station that was started anew for another cookie and sends the call again, once', async () => {
  const asked: string[] = [];
  let knowsThePage = false;
  vi.stubGlobal('fetch', (url: string) => {
    asked.push(url);
    if (url === '/') knowsThePage = true;
    const reply = knowsThePage
      ? { ok: true, value: {} }
      : { ok: false, error: { code: 'forbidden', message: '' } };
    return Promise.resolve(new Response(JSON.stringify(reply), { status: knowsThePage ? 200 : 403 }));
  });
  onTestFinished(() => void vi.unstubAllGlobals());
  const reply = await createHostApi(undefined).call('shop:read', {});
  expect(reply.ok).toBe(true);
  expect(asked).toEqual(['/api/shop:read', '/', '/api/shop:read']);
});
