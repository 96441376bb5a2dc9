import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'electron-vite';
import { firstLoadReport } from './first-load.ts';
import { languageTags, parsedMessages } from './parse-messages.ts';
import { preloadProgram } from './preload-program.ts';
import { hashOfSources } from './src-main/bootstrap/engine-version.ts';

export default defineConfig({
  main: {
    // What was kept under another engine is worked out anew; see the file.
    define: { __ENGINE_VERSION__: JSON.stringify(hashOfSources(import.meta.dirname)) },
    build: {
      outDir: 'out/main',
      // To find and read hundreds of small files took a third of the start; these have no native parts.
      externalizeDeps: {
        exclude: [
          'kysely',
          'zod',
          'xstate',
          'yaml',
          'intl-messageformat',
          'minisearch',
          'fastify',
          '@fastify/compress',
          '@fastify/cookie',
          '@fastify/helmet',
          '@fastify/rate-limit',
          '@fastify/static',
          'pg',
        ],
      },
      rollupOptions: {
        input: {
          index: 'src-main/desktop/index.ts',
          station: 'src-main/station/built.ts',
          reasoning: 'src-main/reasoning/worker.ts',
        },
        output: { format: 'es' },
      },
    },
  },
  // A sandboxed preload may be one CommonJS file only, with everything it uses inside.
  preload: {
    build: {
      outDir: 'out/preload',
      externalizeDeps: false,
      isolatedEntries: true,
      rollupOptions: {
        input: 'src-main/desktop/preload.ts',
        output: { format: 'cjs', entryFileNames: 'preload.cjs' },
      },
    },
  },
  renderer: {
    root: 'src-renderer',
    define: { __LANGUAGES__: languageTags() },
    plugins: [
      parsedMessages(),
      svelte({ configFile: '../svelte.config.js' }),
      firstLoadReport(),
      preloadProgram(),
    ],
    build: {
      outDir: 'out/renderer',
      // Inlined assets would need data: in the policy for styles and scripts.
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      minify: true,
      rollupOptions: { input: 'src-renderer/index.html' },
    },
  },
});
