/** Why the program could not start, and the way on. */
export interface StartFault {
  /** One sentence. */
  readonly title: string;
  /** What was the matter, line by line: "knowledge/causes/extruder.yaml:12: …". */
  readonly reason: string;
  readonly wayOn: string;
}

/** A fault of the start, in words for whoever started it. No stack: nobody at a printer reads one. */
export function startFaultOf(error: unknown): StartFault {
  return {
    title: 'Beadwright could not start.',
    reason: error instanceof Error ? error.message : String(error),
    wayOn:
      'The casebook was left as it is. Where the guide was changed, "beadwright knowledge check" names file and line; otherwise install this version anew.',
  };
}

export function startFaultInWords({ title, reason, wayOn }: StartFault): string {
  return [title, reason, wayOn].join('\n');
}
