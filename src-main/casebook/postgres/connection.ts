import type { AsyncLocalStorage } from 'node:async_hooks';
import { Socket } from 'node:net';
import { Kysely } from 'kysely';
import { Pool, types, type ClientConfig } from 'pg';
import type { CasebookDb } from '../casebook.ts';
import type { Tables } from '../tables.ts';
import { CasebookPostgresDialect } from './postgres-dialect.ts';
import { CHANNEL } from './station-notices.ts';
import { WithoutNulPlugin } from './without-nul.ts';

/** Enough for a shop: whoever writes does so one after the other anyway. */
const CONNECTIONS = 10;
/** A server that takes no connection within this is away; so long waits also who finds all connections in use. */
const CONNECT_LIMIT_MS = 10_000;
/** Whoever waits for another's writing gives up after this, in words. */
const LOCK_LIMIT_MS = 30_000;
/** A station that hangs in the middle of writing keeps the others waiting no longer than this. */
const IDLE_LIMIT_MS = 60_000;

const INT8_OID = 20;

export interface PostgresConnection {
  readonly db: CasebookDb;
  readonly pool: Pool;
  /** Ends all connections at once, with whatever is under way on them: one that only seems to be there would be waited for. */
  breakOff(): void;
}

/** How every connection to the database of this address is made. The address goes last: what it says itself holds. */
export function clientConfig(address: string): ClientConfig {
  return {
    application_name: 'beadwright',
    keepAlive: true,
    keepAliveInitialDelayMillis: 10_000,
    connectionTimeoutMillis: CONNECT_LIMIT_MS,
    lock_timeout: LOCK_LIMIT_MS,
    idle_in_transaction_session_timeout: IDLE_LIMIT_MS,
    connectionString: address,
  };
}

/** What a call that is under way may commit, for other stations: once it was told with a commit it need not be told again. */
export interface Telling {
  readonly notice: string | null;
  isTold: boolean;
}

/** Connections to a database, made when they are needed. `tellings` says of the work at hand what other stations are told of it. */
export function connectTo(address: string, tellings: AsyncLocalStorage<Telling>): PostgresConnection {
  const sockets = new Set<Socket>();
  const pool = new Pool({
    ...clientConfig(address),
    stream: () => {
      const socket = new Socket();
      sockets.add(socket);
      socket.once('close', () => sockets.delete(socket));
      return socket;
    },
    max: CONNECTIONS,
    types: {
      // Counts and sums are far below what a number holds.
      getTypeParser: ((oid: number, format?: 'text' | 'binary') =>
        oid === INT8_OID ? Number : types.getTypeParser(oid, format)) as typeof types.getTypeParser,
    },
  });
  // A connection that breaks while nobody uses it is no more than one the less; whoever uses one hears it from the query. Without a
  // listener of its own either would end the process.
  pool.on('error', () => undefined);
  pool.on('connect', (client) => client.on('error', () => undefined));
  const toTell = () => {
    const telling = tellings.getStore();
    if (!telling || telling.notice === null) return null;
    telling.isTold = true;
    return telling.notice;
  };
  const db: CasebookDb = new Kysely<Tables>({
    dialect: new CasebookPostgresDialect({ pool, toTell, channel: CHANNEL }),
    plugins: [new WithoutNulPlugin()],
  });
  return { db, pool, breakOff: () => sockets.forEach((socket) => socket.destroy()) };
}
