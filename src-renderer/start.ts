import { mount } from 'svelte';
import App from './App.svelte';
import { createHostApi } from './host/create-host-api.ts';
import { openHome } from './navigation/open-home.ts';

/** Puts the program on the page. */
export function start(): void {
  const target = document.getElementById('app');
  if (!target) throw new Error('the page has no #app');
  openHome(document.documentElement, window.location);
  mount(App, { target, props: { host: createHostApi(window.beadwright) } });
}
