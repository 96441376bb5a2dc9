import type { TestProject } from 'vitest/node';
import { findOrInstallPostgres, NO_POSTGRES } from './find-server.ts';
import { serverFolder, serverIn } from './server.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the server of this run is, or will be once a test asks for it; empty where there is none to be had. */
    readonly postgresFolder: string;
  }
}

/** Both projects that need a server share one; each runs this in the same process. */
const SHARED = 'BEADWRIGHT_TEST_POSTGRES';

/** One server for a whole run. The first test that needs a database starts it; it ends with the run. */
export default function sharedServer(project: TestProject): () => void {
  const nothing = () => undefined;
  const shared = process.env[SHARED];
  if (shared !== undefined) {
    project.provide('postgresFolder', shared);
    return nothing;
  }
  const isThere = findOrInstallPostgres() !== null;
  if (!isThere) console.warn(NO_POSTGRES);
  const folder = isThere ? serverFolder() : '';
  process.env[SHARED] = folder;
  project.provide('postgresFolder', folder);
  return isThere ? () => serverIn(folder).remove() : nothing;
}
