/** Entries of the browser's history that belong to a sheet which has just been closed; the next sheet takes one over. */
let spare = 0;

function overlayOnTop(): unknown {
  return typeof history.state === 'object'
    ? (history.state as { overlay?: unknown } | null)?.overlay
    : undefined;
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
  return () => {
    window.removeEventListener('popstate', onpop);
    if (!isOnTop()) return;
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
