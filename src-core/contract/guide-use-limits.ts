/** Said of a check or a remedy only after so many answers or tries, and those come first: once or twice is no habit. */
export const FEWEST_ANSWERS = 5;
export const FEWEST_TRIES = 3;
