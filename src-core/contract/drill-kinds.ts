/** Handling drills, each graded with the program's own physics or knowledge. */
export const DRILL_KINDS = ['material', 'drying', 'nozzle', 'storage', 'stations', 'sheet'] as const;
export type DrillKind = (typeof DRILL_KINDS)[number];
