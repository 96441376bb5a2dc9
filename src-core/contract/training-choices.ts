/** How hard a practice case is: where its cause stands in the guide's list when the complaint is told. */
export const DIFFICULTIES = ['easy', 'middling', 'hard'] as const;
export type Difficulty = (typeof DIFFICULTIES)[number];

/** Sheets of the guide that a debrief leads to. */
export const SHEET_KINDS = ['observation', 'remedy', 'cause', 'practice'] as const;
