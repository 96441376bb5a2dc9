/** The smallest thing that is a JPEG by its markers; `more` are segments put in before the frame. */
export function jpeg(width = 640, height = 480, more: readonly number[] = []): Buffer {
  const high = (value: number) => value >> 8;
  const low = (value: number) => value & 255;
  return Buffer.from([
    ...[0xff, 0xd8],
    ...[0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0],
    ...more,
    ...[0xff, 0xc0, 0, 11, 8, high(height), low(height), high(width), low(width), 1, 1, 0x11, 0],
    ...[0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0],
    ...[0x12, 0x34, 0x56],
    ...[0xff, 0xd9],
  ]);
}
