/** A label inside a sentence: its first letter small; units and abbreviations keep theirs ("PLA", "A-12", "-20 °C"). */
export function inSentence(label: string): string {
  const second = label.charAt(1);
  const isWord = second === '' || second === ' ' || second !== second.toUpperCase();
  return isWord ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}
