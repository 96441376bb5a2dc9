/** How long the content of a screen may take to come back before its place in it is given up: a slow tablet's whole reading. */
const WAIT_MS = 30_000;
/** With any of these somebody goes their own way, and is not taken elsewhere. */
const OWN_WAY = ['wheel', 'touchstart', 'pointerdown', 'keydown'] as const;

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
  let leave = () => {};
  const onhashchange = () => {
    const wasHere = isMarked();
    mark();
    const place = wasHere ? (places.get(location.hash) ?? 0) : 0;
    // The screen that goes away shrinks the page and thereby scrolls it: that is no place anybody chose.
    window.removeEventListener('scroll', onscroll);
    leave();
    leave = scrollWhenLongEnough(place, isShown, () =>
      window.addEventListener('scroll', onscroll, { passive: true }),
    );
  };
  window.addEventListener('scroll', onscroll, { passive: true });
  window.addEventListener('hashchange', onhashchange);
  return () => {
    leave();
    window.removeEventListener('scroll', onscroll);
    window.removeEventListener('hashchange', onhashchange);
  };
}

/**
 * Scrolls there once the page is long enough, and as far as it goes where it does not become so; not at all once somebody has gone
 * their own way meanwhile. Calls `then` in either case; the function returned gives it up without.
 */
function scrollWhenLongEnough(place: number, isShown: () => boolean, then: () => void): () => void {
  const until = performance.now() + WAIT_MS;
  let frame = 0;
  const give = () => {
    cancelAnimationFrame(frame);
    for (const one of OWN_WAY) window.removeEventListener(one, goOwnWay);
  };
  const goOwnWay = () => {
    if (!isShown()) return;
    give();
    then();
  };
  const look = () => {
    const isLongEnough = isShown() && document.documentElement.scrollHeight >= place + window.innerHeight;
    if (!isLongEnough && performance.now() < until) {
      frame = requestAnimationFrame(look);
      return;
    }
    give();
    window.scrollTo({ top: place, behavior: 'instant' });
    frame = requestAnimationFrame(then);
  };
  for (const one of OWN_WAY) window.addEventListener(one, goOwnWay, { passive: true });
  look();
  return give;
}

/** Addresses of the history that this page has shown carry a mark; one that is new has none. */
function mark(): void {
  history.replaceState({ ...(history.state as object | null), wasHere: true }, '');
}

function isMarked(): boolean {
  return (history.state as { wasHere?: boolean } | null)?.wasHere === true;
}
