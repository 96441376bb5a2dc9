import type { Network } from '../../../src-core/contract/network-view.ts';

/** The door for tablets and phones, as operations see it. */
export interface NetworkSwitch {
  readonly view: Network;
  /** Opens or closes it, from now on and after each start. Throws a `SaidError` where it cannot be opened. */
  switchTo(isOpen: boolean): Promise<void>;
}
