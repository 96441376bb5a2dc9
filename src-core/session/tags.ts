/** Whether two tags are one: capitals do not part them. */
export function isSameTag(one: string, other: string): boolean {
  return keyOf(one) === keyOf(other);
}

/** Tags after some were taken off and then others put on, from A to Z, each once. */
export function withTags(
  tags: readonly string[],
  on: readonly string[],
  off: readonly string[],
): readonly string[] {
  const kept = tags.filter((tag) => !off.some((one) => isSameTag(one, tag)));
  const byKey = new Map([...on, ...kept].map((tag) => [keyOf(tag), tag]));
  return [...byKey].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, tag]) => tag);
}

const keyOf = (tag: string) => tag.toLowerCase();
