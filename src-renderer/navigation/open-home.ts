import { hrefTo } from './route.svelte.ts';

/** A device that belongs to a printer opens with that printer's page, unless an address says otherwise. The host marks it in the page. */
export function openHome(page: HTMLElement, location: Pick<Location, 'hash' | 'replace'>): void {
  const home = page.dataset['home'];
  if (home && location.hash.replace(/^#\/?/, '') === '') location.replace(hrefTo(...home.split('/')));
}
