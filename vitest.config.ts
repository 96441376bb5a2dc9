import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [svelte()],
  test: {
    include: ['tests/**/*.test.ts'],
    // Browser and process tests, and answers over the whole guide, take their time on two cores that others use as well.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    reporters: ['default', './tests/closing-line.ts'],
  },
});
