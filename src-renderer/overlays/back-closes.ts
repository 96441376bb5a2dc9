/** Entries of the browser's history that belong to a sheet which has just been closed; the next sheet takes one over. */
let spare = 0;

function overlayOnTop(): unknown {
  return typeof history.state === 'object'
    ? (history.state as { overlay?: unknown } | null)?.overlay
    : undefined;
}

/** Whether this press makes the browser go to a link's address in this window. */
function isFollowing({ target, button, ctrlKey, metaKey, shiftKey }: MouseEvent): boolean {
  if (button !== 0 || ctrlKey || metaKey || shiftKey || !(target instanceof Element)) return false;
  return target.closest('a[href]:not([download], [target])') !== null;
}

/**
 * Makes the browser's Back close what lies on top instead of leaving the screen. Opening adds an entry to the history, and
 * `close` is called when that entry is gone. The returned function is called when it was closed in another way; it takes the
 * entry out again.
 */
export function backCloses(close: () => void): () => void {
  const key = `overlay-${performance.now()}`;
  if (spare > 0) {
    spare--;
    history.replaceState({ overlay: key }, '');
  } else history.pushState({ overlay: key }, '');
  const isOnTop = () => overlayOnTop() === key;
  const onpop = () => {
    if (!isOnTop()) close();
  };
  window.addEventListener('popstate', onpop);
  // The browser goes to the address of a link only after its press has been dealt with: a sheet that is closed by that press
  // must not go back at the same time, for either may come first.
  let isLeft = false;
  const onpress = (event: MouseEvent) => (isLeft = isFollowing(event));
  window.addEventListener('click', onpress, { capture: true });
  return () => {
    window.removeEventListener('popstate', onpop);
    window.removeEventListener('click', onpress, { capture: true });
    if (isLeft || !isOnTop()) return;
    spare++;
    // A sheet that opens in place of this one does so at once; otherwise the entry goes, unless somebody has gone on meanwhile:
    // going back would take them from where they went.
    setTimeout(() => {
      if (spare === 0) return;
      spare--;
      if (overlayOnTop() !== undefined) history.back();
    });
  };
}
