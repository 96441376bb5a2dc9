import { whatChanges } from '../../src-core/contract/change.ts';
import type { Doorkeeper } from '../operations/access/doorkeeper.ts';
import type { Dispatcher } from '../operations/dispatcher.ts';

/** Answers calls that come by a door: whoever is signed in on a device and writes something stays signed in. */
export function dispatchAtDoor(
  dispatcher: Pick<Dispatcher, 'dispatch'>,
  doorkeeper: Doorkeeper,
): Dispatcher['dispatch'] {
  return async (name, input, by) => {
    const reply = await dispatcher.dispatch(name, input, by);
    // What was answered holds, whether or not the time of it can be noted.
    if (reply.ok && by && isWriting(name)) await doorkeeper.touchPerson(by).catch(() => undefined);
    return reply;
  };
}

function isWriting(name: unknown): boolean {
  return typeof name === 'string' && Object.hasOwn(whatChanges, name)
    ? whatChanges[name as keyof typeof whatChanges].length > 0
    : false;
}
