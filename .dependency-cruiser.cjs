/** The dependency rule of the house: core knows nothing outside core; the renderer knows the contract and core's types; main knows core. */
module.exports = {
  forbidden: [
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'core-is-pure',
      comment: 'src-core imports only src-core and pure libraries.',
      severity: 'error',
      from: { path: '^src-core' },
      to: {
        pathNot:
          '^(src-core|node_modules/(zod|yaml|xstate|minisearch|stemmer|d3-dsv|fastest-levenshtein|@noble/hashes|intl-messageformat)/)',
      },
    },
    {
      name: 'renderer-knows-the-contract-only',
      comment:
        'Screens reach the host through src-core/contract and read words by src-core/words; other core modules only as types.',
      severity: 'error',
      from: { path: '^src-renderer' },
      to: { path: '^src-core/(?!contract|words)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'renderer-not-main',
      severity: 'error',
      from: { path: '^src-renderer' },
      to: { path: '^src-main' },
    },
    {
      name: 'main-not-renderer',
      severity: 'error',
      from: { path: '^src-main' },
      to: { path: '^src-renderer' },
    },
    {
      name: 'only-desktop-knows-electron',
      severity: 'error',
      from: { path: '^src-(core|renderer|main)', pathNot: '^src-main/desktop' },
      to: { path: 'node_modules/electron/' },
    },
    {
      name: 'no-unresolvable',
      severity: 'error',
      // Ambient types name modules that only the type checker resolves.
      from: { pathNot: '[.]d[.]ts$' },
      to: { couldNotResolve: true, pathNot: '^electron$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.js', '.svelte', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'svelte', 'default'],
    },
  },
};
