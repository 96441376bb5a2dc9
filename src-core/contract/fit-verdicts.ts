/** How a material stands against a use, best first. Without schemas, so that screens can list them. */
export const FIT_VERDICTS = ['suits', 'suits-with-limits', 'not-known', 'does-not-suit'] as const;
export type FitVerdict = (typeof FIT_VERDICTS)[number];
