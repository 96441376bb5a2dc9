import '@fontsource/atkinson-hyperlegible-next/latin-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-600.css';
import '@fontsource/atkinson-hyperlegible-next/latin-700.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-700.css';
import './styles/tokens.css';
import './styles/base.css';
import './styles/tables.css';
import './styles/forced-colors.css';
import './styles/print.css';
import { localStore } from './host/session-store.ts';
import { loadLanguage } from './messages/language.ts';
import { facesAreThere } from './styles/faces.ts';

const faces = facesAreThere(document.fonts);
// Tables of words are made as their files are read: the language has to be there before.
await loadLanguage(localStore());
const { start } = await import('./start.ts');
await faces;
start();
