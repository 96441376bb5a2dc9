import type { WebContents } from 'electron';
import type { Change } from '../../src-core/contract/change.ts';

/** The channel on which a window hears what was written. */
export const CHANGE_CHANNEL = 'beadwright:change';

/** Tells the window what was written, for as long as it is there. */
export function pushChanges(
  follow: (listener: (change: Change) => void) => () => void,
  contents: Pick<WebContents, 'send' | 'isDestroyed' | 'on'>,
): void {
  const unfollow = follow((change) => {
    if (!contents.isDestroyed()) contents.send(CHANGE_CHANNEL, change);
  });
  contents.on('destroyed', unfollow);
}
