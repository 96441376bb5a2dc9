/**
 * Lets a device keep the page and its code, so that it stands there also when it is reloaded while its station is away. Browsers
 * allow that over HTTPS only; without it everything else is as it was.
 */
export async function keepShell({ serviceWorker }: Partial<Pick<Navigator, 'serviceWorker'>>): Promise<void> {
  if (!serviceWorker) return;
  try {
    await serviceWorker.register('/offline-shell.js');
    const { active } = await serviceWorker.ready;
    active?.postMessage(performance.getEntriesByType('resource').map(({ name }) => name));
  } catch {
    // The browser keeps nothing: the page is as good as without.
  }
}
