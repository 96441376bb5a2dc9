import type { NetworkSwitch } from '../access/network-switch.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const networkRead: Handler<'network:read'> = (program) => doorOf(program).view;

export const networkSwitch: Handler<'network:switch'> = async (program, { isOpen }) => {
  const door = doorOf(program);
  if (door.view.isSaidAtStart)
    throw new DomainError(
      'refused',
      'Whether tablets and phones come in was said when Beadwright was started. Start it without that word to have the say here.',
    );
  try {
    await door.switchTo(isOpen);
  } catch (error) {
    throw new DomainError('refused', error instanceof Error ? error.message : String(error));
  }
  return door.view;
};

function doorOf({ desk }: ApplicationContext): NetworkSwitch {
  if (!desk.network) throw new DomainError('refused', 'This Beadwright has no door to the network.');
  return desk.network;
}
