/** Longer side of a photo, pixels: sharp enough for a layer line, small enough for a casebook. */
export const LONGEST_SIDE_PX = 1600;
/** Largest photo, byte. */
export const LARGEST_PHOTO_BYTES = 1_500_000;
/** Photos of one case: with them its line of an export still goes through in one piece. */
export const MOST_PHOTOS_A_CASE = 24;
