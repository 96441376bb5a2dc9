import { AttemptGate } from './attempt-gate.ts';
import { JoinCodes } from './join-codes.ts';

/** What the process itself knows of who wants in: nothing of it outlives a restart. */
export class AccessDesk {
  readonly codes = new JoinCodes();
  /** Tries of join codes, by the address they come from. */
  readonly joining = new AttemptGate(8);
  /** Of PINs: on one device for one person; on one device; for one person on all devices together. */
  readonly pinOnDevice = new AttemptGate(4);
  readonly device = new AttemptGate(12);
  readonly person = new AttemptGate(20);
  /** Where devices of the network find the station, "https://shop.lan:4443"; none while it is open to this machine only. */
  addresses: readonly string[] = [];
}
