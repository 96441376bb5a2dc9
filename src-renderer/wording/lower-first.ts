/** A label inside a sentence: its first letter small, unless it begins with an abbreviation ("PLA", "LED"). */
export function lowerFirst(label: string): string {
  const second = label.charAt(1);
  return second !== second.toLowerCase() ? label : label.charAt(0).toLowerCase() + label.slice(1);
}
