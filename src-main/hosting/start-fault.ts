/** Why the program could not start, in words for whoever started it, and the way on. No stack: nobody at a printer reads one. */
export function startFaultInWords(error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  return [
    'Beadwright could not start.',
    reason,
    'The casebook was left as it is. Where the guide was changed, "beadwright knowledge check" names file and line; otherwise install this version anew.',
  ].join('\n');
}
