/** Entries of the first block; later blocks double. */
const FIRST_BLOCK = 4096;

/**
 * Cuts many small zeroed arrays out of few large ones. A typed array of its own costs a block outside the garbage
 * collector's heap, and a circuit needs over a thousand.
 */
export class Arena {
  private readonly floatBlock = { array: new Float64Array(0), used: 0 };
  private readonly intBlock = { array: new Int32Array(0), used: 0 };

  floats(length: number): Float64Array {
    const block = this.floatBlock;
    if (block.used + length > block.array.length) {
      block.array = new Float64Array(Math.max(FIRST_BLOCK, 2 * block.array.length, length));
      block.used = 0;
    }
    block.used += length;
    return block.array.subarray(block.used - length, block.used);
  }

  ints(length: number): Int32Array {
    const block = this.intBlock;
    if (block.used + length > block.array.length) {
      block.array = new Int32Array(Math.max(FIRST_BLOCK, 2 * block.array.length, length));
      block.used = 0;
    }
    block.used += length;
    return block.array.subarray(block.used - length, block.used);
  }
}
