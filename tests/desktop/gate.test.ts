import { describe, expect, it } from 'vitest';
import { CALL_CHANNEL, registerGate } from '../../src-main/desktop/gate.ts';
import { isOurAddress, isOurFrame } from '../../src-main/desktop/our-frame.ts';
import { windowOptions } from '../../src-main/desktop/window-options.ts';

describe('the sender of a message', () => {
  it.each([
    ['no frame', null],
    ['a frame without an address', { url: '', parent: null }],
    ['a frame inside ours', { url: 'app://beadwright/', parent: {} }],
    ['a web page', { url: 'https://beadwright/', parent: null }],
    ['another custom scheme (whose origin is "null" too)', { url: 'evil://beadwright/', parent: null }],
    ['another host of our scheme', { url: 'app://elsewhere/', parent: null }],
    ['a file', { url: 'file:///beadwright/index.html', parent: null }],
  ])('%s is not ours', (_what, frame) => expect(isOurFrame(frame)).toBe(false));

  it('our own top frame is', () =>
    expect(isOurFrame({ url: 'app://beadwright/index.html#/case/1', parent: null })).toBe(true));
  it('an unreadable address is not ours', () => expect(isOurAddress('::::')).toBe(false));
});

it('the gate refuses a foreign frame before the dispatcher sees anything', async () => {
  let seen = 0;
  const dispatched = { ok: true as const, value: 'x' };
  let listener: ((event: unknown, ...args: unknown[]) => Promise<unknown>) | null = null;
  registerGate(
    {
      handle: (channel, given) => {
        expect(channel).toBe(CALL_CHANNEL);
        listener = given as never;
      },
    },
    {
      dispatch: () => {
        seen++;
        return Promise.resolve(dispatched);
      },
      call: () => Promise.reject(new Error('not used')),
    },
  );
  const send = listener as unknown as (event: unknown, ...args: unknown[]) => Promise<unknown>;
  expect(
    await send({ senderFrame: { url: 'https://evil.example/', parent: null } }, 'host:info', {}),
  ).toMatchObject({
    ok: false,
    error: { code: 'forbidden' },
  });
  expect(seen).toBe(0);
  expect(await send({ senderFrame: { url: 'app://beadwright/', parent: null } }, 'host:info', {})).toBe(
    dispatched,
  );
  expect(seen).toBe(1);
});

it('the window is isolated, sandboxed and without Node', () => {
  const { webPreferences } = windowOptions('/preload.cjs', {
    bounds: { width: 1280, height: 800 },
    isMaximized: false,
  });
  expect(webPreferences).toMatchObject({
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webviewTag: false,
    webSecurity: true,
  });
});
