/// <reference types="svelte" />
/// <reference types="vite/client" />

interface Window {
  /** Put there by the desktop's preload; missing at the station. */
  readonly beadwright?: import('./host/create-host-api.ts').Bridge;
}

/** Tags of the languages that there is a file for; put there by the build. */
declare const __LANGUAGES__: readonly string[];
