/** As long as the first text waits for its typeface. */
const LONGEST_MS = 300;
/** The faces with the letters of English; those with rarer ones come when they are met. */
const PLAIN_LETTERS = /^U\+0+-FF\b/i;

/** Resolves once the typeface of the screens is there, so that no word moves when it comes; after a moment in any case. */
export async function facesAreThere(fonts: Iterable<FontFace>): Promise<void> {
  const faces = [...fonts].filter(({ unicodeRange }) => PLAIN_LETTERS.test(unicodeRange));
  await Promise.race([
    Promise.allSettled(faces.map((face) => face.load())),
    new Promise((resolve) => setTimeout(resolve, LONGEST_MS)),
  ]);
}
