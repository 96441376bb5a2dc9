/** Where both hosts serve a photo, below the page's own address. */
export function photoAddress(hash: string): string {
  return `photos/${hash}.jpg`;
}

/** The photo that the path of an address ("/photos/HASH.jpg") asks for, or null. */
export function photoAskedFor(path: string): string | null {
  const hash = /[0-9a-f]{64}/.exec(path)?.[0];
  return hash !== undefined && path === `/${photoAddress(hash)}` ? hash : null;
}
