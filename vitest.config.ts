import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';
import { parsedMessages } from './parse-messages.ts';
import { isNightly } from './tests/nightly.ts';
import { findPostgres, mayInstallPostgres, NO_POSTGRES } from './tests/postgres/find-server.ts';

/** What needs nothing but the core and the guide: these files share their modules, so that the guide is read once for all. */
const core = [
  'differential',
  'expectation',
  'fit',
  'flow',
  'inference',
  'knowledge',
  'moisture',
  'open-cases',
  'peers',
  'photos',
].concat([
  'planning',
  'published',
  'recurrence',
  'reference-cases',
  'resources',
  'session',
  'training',
  'words',
]);
const coreFiles = core.map((folder) => `tests/${folder}/**/*.test.ts`);

/**
 * What says that a casebook in PostgreSQL is as good as one in a file: the same tests, once more. By day those where engines could
 * differ most: what is written once, in order, or not at all; by night the rest as well.
 */
const onBothEngines = ['bin', 'double-click', 'roles', 'steps', 'who-did-it']
  .concat(
    isNightly ? ['access', 'actions', 'case-links', 'changes', 'long-case', 'maintenance', 'operations'] : [],
  )
  .concat(isNightly ? ['photos', 'shop', 'spools', 'spreadsheets', 'tags', 'transfer'] : [])
  .map((name) => `tests/operations/${name}.test.ts`)
  .concat(isNightly ? ['tests/casebook/case-search.test.ts', 'tests/attack/fuzz.test.ts'] : []);

/**
 * By day CI has a quarter of an hour. Left to the night: two stations on one database in browsers (the same day on one station is played
 * by `devices.test.ts`), a shop of tablets (its parts by `postgres.test.ts`), and of the walks through screens those whose calls and
 * sums have tests of their own without a browser. `npm run nightly` plays them.
 */
const byNight = ['tests/browser/two-stations.test.ts', 'tests/station/shop.test.ts'].concat(
  ['codes', 'lead-monday', 'loose-ends', 'maintenance', 'numbers', 'old-cases'].map(
    (name) => `tests/browser/${name}.test.ts`,
  ),
);

function onPostgres() {
  if (findPostgres() === null && !mayInstallPostgres()) {
    console.warn(NO_POSTGRES);
    return [];
  }
  return [
    {
      extends: true as const,
      test: {
        name: 'postgres',
        include: onBothEngines,
        env: { BEADWRIGHT_TEST_ENGINE: 'postgres' },
        globalSetup: './tests/postgres/shared-server.ts',
        setupFiles: './tests/postgres/skip-without-server.ts',
      },
    },
  ];
}

export default defineConfig({
  test: {
    // Browser and process tests, and answers over the whole guide, take their time on two cores that others use as well.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // The library's own second is too short for what a busy machine has still under way.
    expect: { poll: { timeout: 60_000 } },
    // One worker less than there are cores, the default, would leave one of CI's two cores idle.
    maxWorkers: '100%',
    reporters: ['default', './tests/closing-line.ts'],
    projects: [
      { extends: true, test: { name: 'core', include: coreFiles, isolate: false } },
      {
        extends: true,
        plugins: [parsedMessages(), svelte()],
        test: {
          name: 'program',
          include: ['tests/**/*.test.ts'],
          exclude: [...coreFiles, 'tests/browser/**', ...(isNightly ? [] : byNight)],
          globalSetup: './tests/postgres/shared-server.ts',
        },
      },
      {
        extends: true,
        plugins: [parsedMessages(), svelte()],
        test: {
          name: 'browser',
          // A hang has to end some time; how quick the machine is must not matter.
          testTimeout: 600_000,
          include: ['tests/browser/**/*.test.ts'],
          exclude: isNightly ? [] : byNight,
          // The files of a worker share its Chromium.
          isolate: false,
          globalSetup: './tests/postgres/shared-server.ts',
        },
      },
      ...onPostgres(),
    ],
  },
});
