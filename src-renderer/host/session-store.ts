/** What lasts as long as the window; null where the browser keeps nothing. */
export function sessionStore(): Storage | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}
