import { nearestId } from './nearest-id.ts';

/** "unknown cause "wet-filamnt"; did you mean "wet-filament"?" or null when it is known. */
export function unknownId(what: string, known: ReadonlyMap<string, unknown>, id: string): string | null {
  if (known.has(id)) return null;
  const near = nearestId(id, known.keys());
  return `unknown ${what} "${id}"${near ? `; did you mean "${near}"?` : ''}`;
}
