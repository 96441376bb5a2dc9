/** A label inside a sentence: its first letter small; units and abbreviations keep theirs ("PLA", "A-12"). */
export function inSentence(label: string): string {
  const second = label.charAt(1);
  const isWord = second === '' || second === ' ' || second !== second.toUpperCase();
  return isWord ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}

/** Words of a table at the start of a sentence: their first letter large. */
export function asSentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
