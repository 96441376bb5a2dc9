import '@fontsource/atkinson-hyperlegible-next/latin-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-600.css';
import '@fontsource/atkinson-hyperlegible-next/latin-700.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-700.css';
import './styles/tokens.css';
import './styles/base.css';
import './styles/tables.css';
import './styles/print.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { createHostApi } from './host/create-host-api.ts';
import { openHome } from './navigation/open-home.ts';

const target = document.getElementById('app');
if (!target) throw new Error('the page has no #app');
openHome(document.documentElement, window.location);
mount(App, { target, props: { host: createHostApi(window.beadwright) } });
