/**
 * True in the long run of the checks (`npm run nightly`): more kills, more random cases, every screen at every width.
 * What each of them shows is the same in the short run that CI makes; the long one only looks at more.
 */
export const isNightly = process.env['BEADWRIGHT_NIGHTLY'] === '1';
