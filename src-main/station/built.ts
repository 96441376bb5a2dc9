import { enableCompileCache } from 'node:module';
import path from 'node:path';

// The built station: what the engine made of its code is kept beside it, as the guide is, for the next start. In a folder of
// its own, never in one that others can write to; where none can be written, starting takes a little longer.
enableCompileCache(path.join(import.meta.dirname, '..', 'compiled'));
await import('./index.ts');
