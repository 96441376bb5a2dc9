/** Working space of the search over sets of remedies; grows when needed, so a sweep of searches makes no waste. */
export class SubsetSpace {
  persists = new Float64Array(0);
  toPay = new Float64Array(0);
  next = new Int8Array(0);
  /** Bit p: preparation p is made by a remedy of the set. */
  prepared = new Int32Array(0);
  /** left[slot * sets + set] */
  left = new Float64Array(0);

  reserve(sets: number, slots: number): void {
    if (this.persists.length < sets) {
      this.persists = new Float64Array(sets);
      this.toPay = new Float64Array(sets);
      this.next = new Int8Array(sets);
      this.prepared = new Int32Array(sets);
    }
    if (this.left.length < sets * slots) this.left = new Float64Array(sets * slots);
  }
}
