import { refusals } from '../../../src-core/words/en/refusals.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';
import type { NetworkSwitch } from '../access/network-switch.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';

export const networkRead: Handler<'network:read'> = (program) => doorOf(program).view;

export const networkSwitch: Handler<'network:switch'> = async (program, { isOpen }) => {
  const door = doorOf(program);
  if (door.view.isSaidAtStart) throw new DomainError('refused', refusals.networkSaidAtStart());
  try {
    await door.switchTo(isOpen);
  } catch (error) {
    if (error instanceof SaidError) throw new DomainError('refused', error.said);
    throw error;
  }
  return door.view;
};

function doorOf({ desk }: ApplicationContext): NetworkSwitch {
  if (!desk.network) throw new DomainError('refused', refusals.noDoor());
  return desk.network;
}
