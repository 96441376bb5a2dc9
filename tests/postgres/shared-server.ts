import type { TestProject } from 'vitest/node';
import { findPostgres } from './find-server.ts';
import { serverFolder, serverIn } from './server.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the server of this run is, or will be once a test asks for it; empty where there is none to be had. */
    readonly postgresFolder: string;
  }
}

/** One server for a whole run. The first test that needs a database starts it; it ends with the run. */
export default function sharedServer(project: TestProject): () => void {
  if (findPostgres() === null) {
    project.provide('postgresFolder', '');
    return () => undefined;
  }
  const folder = serverFolder();
  project.provide('postgresFolder', folder);
  return () => serverIn(folder).remove();
}
