/** Initials that a person can have: one to four letters. Without the schemas, so that a screen can ask too. */
export const INITIALS = /^\p{L}{1,4}$/u;
