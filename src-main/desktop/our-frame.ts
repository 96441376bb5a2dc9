/** The scheme and host that the desktop serves its screens from. */
export const APP_SCHEME = 'app';
export const APP_HOST = 'beadwright';
export const APP_ADDRESS = `${APP_SCHEME}://${APP_HOST}/`;

/** What of a sender's frame the gate looks at. */
export interface SenderFrame {
  readonly url: string;
  readonly parent: unknown;
}

/**
 * Whether a message comes from our own top frame. Scheme and host are compared one by one: Node gives the origin of
 * custom schemes as the text "null", so comparing origins would let any custom scheme in.
 */
export function isOurFrame(frame: SenderFrame | null): boolean {
  if (frame === null || frame.parent !== null || frame.url === '') return false;
  return isOurAddress(frame.url);
}

export function isOurAddress(address: string): boolean {
  try {
    const url = new URL(address);
    return url.protocol === `${APP_SCHEME}:` && url.host === APP_HOST;
  } catch {
    return false;
  }
}
