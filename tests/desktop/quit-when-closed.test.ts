import { expect, it, vi } from 'vitest';
import { quitWhenClosed } from '../../src-main/desktop/quit-when-closed.ts';

function quitting(close: () => Promise<undefined>) {
  let listener: (event: { preventDefault: () => void }) => void = () => undefined;
  const exit = vi.fn();
  const on = (_name: string, given: typeof listener) => {
    listener = given;
  };
  quitWhenClosed({ on, exit } as unknown as Parameters<typeof quitWhenClosed>[0], close);
  const preventDefault = vi.fn();
  return { quit: () => listener({ preventDefault }), exit, preventDefault };
}

it('B11: quitting waits for the casebook, once', async () => {
  const { promise, resolve } = Promise.withResolvers<undefined>();
  const close = vi.fn(() => promise);
  const { quit, exit, preventDefault } = quitting(close);
  quit();
  quit();
  expect([preventDefault.mock.calls.length, close.mock.calls.length, exit.mock.calls.length]).toEqual([
    2, 1, 0,
  ]);
  resolve(undefined);
  await vi.waitFor(() => expect(exit).toHaveBeenCalledWith(0));
});

it('a casebook that cannot be closed does not keep the program from ending', async () => {
  const { quit, exit } = quitting(() => Promise.reject(new Error('the disk is gone')));
  quit();
  await vi.waitFor(() => expect(exit).toHaveBeenCalledWith(1));
});
