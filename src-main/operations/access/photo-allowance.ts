const HOUR_MS = 60 * 60_000;
/** Far more than anybody takes of one shift's faults; a device out of hand fills no disk with it. */
const MOST_AN_HOUR = 240;

/** How many photos each device may still send, counted by the hour that began with its first. */
export class PhotoAllowance {
  readonly #sent = new Map<string, { readonly sinceMs: number; count: number }>();

  /** Whether one more is taken from this device; it counts with this. */
  take(deviceId: string, nowMs: number): boolean {
    for (const [id, { sinceMs }] of this.#sent) if (nowMs - sinceMs >= HOUR_MS) this.#sent.delete(id);
    const sent = this.#sent.get(deviceId) ?? { sinceMs: nowMs, count: 0 };
    this.#sent.set(deviceId, sent);
    if (sent.count >= MOST_AN_HOUR) return false;
    sent.count += 1;
    return true;
  }
}
