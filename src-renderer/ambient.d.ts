/// <reference types="svelte" />
/// <reference types="vite/client" />

interface Window {
  /** Put there by the desktop's preload; missing at the station. */
  readonly beadwright?: Readonly<
    Record<import('../src-core/contract/call-names.ts').CallName, (input: unknown) => Promise<unknown>>
  >;
}
