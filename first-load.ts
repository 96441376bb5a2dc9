import { gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

/** Compressed script that a browser may have to bring before a screen stands, byte. */
export const FIRST_LOAD_LIMIT_BYTES = 250_000;

/** Name of the chunk that every page brings after the one that it names. */
export const PROGRAM = 'start';

/** What of a built file counts: its text, and the files that it cannot run without. */
export interface BuiltScript {
  readonly code: string;
  readonly imports: readonly string[];
}

/** Compressed size of a script with everything that comes with it, byte. Files that are not there count nothing. */
export function loadBytes(scripts: ReadonlyMap<string, BuiltScript>, roots: readonly string[]): number {
  const reached = new Set(roots);
  let bytes = 0;
  for (const name of reached) {
    const script = scripts.get(name);
    if (!script) continue;
    bytes += gzipSync(script.code).length;
    for (const other of script.imports) reached.add(other);
  }
  return bytes;
}

/** Says at each build what opening the program at each screen brings, and fails where one is above the limit. */
export function firstLoadReport(): Plugin {
  return {
    name: 'first-load-report',
    apply: 'build',
    writeBundle(_options, bundle) {
      const scripts = new Map<string, BuiltScript>();
      const screens: { readonly name: string; readonly file: string }[] = [];
      const always: string[] = [];
      for (const chunk of Object.values(bundle)) {
        if (chunk.type !== 'chunk') continue;
        scripts.set(chunk.fileName, chunk);
        // The program itself comes right after the language of the page.
        if (chunk.isEntry || chunk.name === PROGRAM) always.push(chunk.fileName);
        else if (chunk.isDynamicEntry) screens.push({ name: chunk.name, file: chunk.fileName });
      }
      const loads = screens.map(({ name, file }) => ({ name, bytes: loadBytes(scripts, [...always, file]) }));
      const kilobytes = (bytes: number) => `${Math.round(bytes / 1000)} kB`;
      const lines = loads.map(({ name, bytes }) => `${name} ${kilobytes(bytes)}`);
      this.info(
        `compressed script to the first screen: frame ${kilobytes(loadBytes(scripts, always))}; with ${lines.join(', ')}`,
      );
      const above = loads.filter(({ bytes }) => bytes > FIRST_LOAD_LIMIT_BYTES);
      if (above.length > 0)
        this.error(
          `more than ${kilobytes(FIRST_LOAD_LIMIT_BYTES)} of compressed script to ${above.map(({ name }) => name).join(', ')}: bring what is not needed at once later`,
        );
    },
  };
}
