import type { IpcMain } from 'electron';
import type { Reply } from '../../src-core/contract/reply.ts';
import { refusals } from '../../src-core/words/en/refusals.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';
import { failedReply } from '../operations/failed-reply.ts';
import { isOurFrame } from './our-frame.ts';

/** The one channel between screens and main process. */
export const CALL_CHANNEL = 'beadwright:call';

/** Answers calls from our own frame through the dispatcher's gate; anybody else is refused before anything is read. */
export function registerGate(ipcMain: Pick<IpcMain, 'handle'>, dispatcher: Dispatcher): void {
  ipcMain.handle(CALL_CHANNEL, (event, name: unknown, input: unknown): Promise<Reply<unknown>> => {
    if (!isOurFrame(event.senderFrame)) {
      return Promise.resolve(failedReply('forbidden', refusals.notThisWindow()));
    }
    return dispatcher.dispatch(name, input);
  });
}
