/** Tags that one case takes. */
export const MOST_TAGS = 20;
/** Letters of one. */
export const LONGEST_TAG = 40;
