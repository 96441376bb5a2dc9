/** Whether this page stands in the desktop's window, which can save PDF by itself; a browser has its print window for that. */
export function isDesktop(): boolean {
  return window.beadwright !== undefined;
}
