import { registerHooks } from 'node:module';

// The bundles import "electron"; here that is the stand-in, which drives a real Chromium instead.
registerHooks({
  resolve: (specifier, context, next) =>
    specifier === 'electron'
      ? { url: new URL('./electron.ts', import.meta.url).href, shortCircuit: true }
      : next(specifier, context),
});
