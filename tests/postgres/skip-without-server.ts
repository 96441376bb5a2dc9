import { beforeEach, inject } from 'vitest';
import { NO_POSTGRES } from './find-server.ts';

// Of the run on PostgreSQL: without a server its tests are left out, with the reason.
if (inject('postgresFolder') === '') beforeEach((context) => context.skip(NO_POSTGRES));
