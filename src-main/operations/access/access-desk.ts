import { PhotoAllowance } from './photo-allowance.ts';
import type { NetworkSwitch } from './network-switch.ts';

/** What only the process itself knows of the way in. */
export class AccessDesk {
  readonly photos = new PhotoAllowance();
  /** The door for devices of the network; null where the host has none. */
  network: NetworkSwitch | null = null;

  /** Where devices of the network find the station, "https://shop.lan:4443"; none while it is open to this machine only. */
  get addresses(): readonly string[] {
    return this.network?.view.addresses ?? [];
  }
}
