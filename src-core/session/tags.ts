/** Whether two tags are one: capitals do not part them. */
export function isSameTag(one: string, other: string): boolean {
  return keyOf(one) === keyOf(other);
}

/** From A to Z, whatever their capitals. */
export function byTag(one: string, other: string): number {
  return keyOf(one) < keyOf(other) ? -1 : 1;
}

/** Tags after some were taken off and then others put on, from A to Z, each once. */
export function withTags(
  tags: readonly string[],
  on: readonly string[],
  off: readonly string[],
): readonly string[] {
  const kept = tags.filter((tag) => !off.some((one) => isSameTag(one, tag)));
  return [...new Map([...on, ...kept].map((tag) => [keyOf(tag), tag])).values()].toSorted(byTag);
}

const keyOf = (tag: string) => tag.toLowerCase();
