/** How long the content of a screen may take to come back before its place in it is given up. */
const WAIT_MS = 3000;

const places = new Map<string, number>();

/**
 * Comes back to the same place in a list: how far each address was scrolled is kept, and Back goes there once the content has
 * grown long enough. An address that is gone to anew begins at its top. `isShown` says whether the screen of the address is
 * there: until then the one before is, whose length says nothing. Returns the way to stop.
 */
export function keepScrollPlaces(isShown: () => boolean): () => void {
  history.scrollRestoration = 'manual';
  mark();
  const onscroll = () => void places.set(location.hash, window.scrollY);
  const onhashchange = () => {
    const wasHere = isMarked();
    mark();
    const place = wasHere ? (places.get(location.hash) ?? 0) : 0;
    // The screen that goes away shrinks the page and thereby scrolls it: that is no place anybody chose.
    window.removeEventListener('scroll', onscroll);
    scrollWhenLongEnough(place, isShown, performance.now() + WAIT_MS, () =>
      window.addEventListener('scroll', onscroll, { passive: true }),
    );
  };
  window.addEventListener('scroll', onscroll, { passive: true });
  window.addEventListener('hashchange', onhashchange);
  return () => {
    window.removeEventListener('scroll', onscroll);
    window.removeEventListener('hashchange', onhashchange);
  };
}

function scrollWhenLongEnough(place: number, isShown: () => boolean, until: number, then: () => void): void {
  const isLongEnough = isShown() && document.documentElement.scrollHeight >= place + window.innerHeight;
  if (isLongEnough || performance.now() > until) {
    window.scrollTo({ top: place, behavior: 'instant' });
    requestAnimationFrame(then);
  } else requestAnimationFrame(() => scrollWhenLongEnough(place, isShown, until, then));
}

/** Addresses of the history that this page has shown carry a mark; one that is new has none. */
function mark(): void {
  history.replaceState({ ...(history.state as object | null), wasHere: true }, '');
}

function isMarked(): boolean {
  return (history.state as { wasHere?: boolean } | null)?.wasHere === true;
}
