/** What only the process itself knows of the way in. */
export class AccessDesk {
  /** Where devices of the network find the station, "https://shop.lan:4443"; none while it is open to this machine only. */
  addresses: readonly string[] = [];
}
