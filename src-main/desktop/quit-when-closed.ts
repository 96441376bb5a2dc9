import type { App } from 'electron';

/** The program ends by then, whatever still hangs. */
const END_WITHIN_MS = 4500;

/** Quitting waits until the casebook is closed, so that its log is folded in and its lock is free for the next start. */
export function quitWhenClosed(app: Pick<App, 'on' | 'exit'>, close: () => Promise<void>): void {
  let isClosing = false;
  app.on('will-quit', (event) => {
    event.preventDefault();
    if (isClosing) return;
    isClosing = true;
    setTimeout(() => app.exit(1), END_WITHIN_MS).unref();
    close().then(
      () => app.exit(0),
      () => app.exit(1),
    );
  });
}
