/** Lengths of a hot end's heated zone. Without schemas, so that screens can list them. */
export const MELT_ZONES = ['short', 'long', 'extra-long'] as const;
