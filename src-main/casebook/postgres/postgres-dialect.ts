import { CompiledQuery, PostgresDialect, PostgresDriver, type Driver, type PostgresPool } from 'kysely';

type Connection = Parameters<PostgresDriver['rollbackTransaction']>[0];

/**
 * Whoever writes several things at once does so alone, as on a file: then what was looked at inside a transaction is what
 * stands when it commits, numbers follow without a gap, and nothing ever has to be tried a second time. Any number will do;
 * it is the same for all stations.
 */
const ONE_WRITER = 7_233_160_118;

export interface CasebookPostgres {
  readonly pool: PostgresPool;
  /** What other stations are told with the commit that is about to be made; null for nothing. */
  readonly toTell: () => string | null;
  readonly channel: string;
}

/** Transactions one after the other, with word of them to other stations in the very commit. */
class OneWriterDriver extends PostgresDriver {
  readonly #settings: CasebookPostgres;

  constructor(settings: CasebookPostgres) {
    super({ pool: settings.pool });
    this.#settings = settings;
  }

  override async beginTransaction(connection: Connection): Promise<void> {
    try {
      // Read committed: each statement after the lock sees whatever was committed before it was given.
      await connection.executeQuery(CompiledQuery.raw('begin isolation level read committed'));
      await connection.executeQuery(CompiledQuery.raw(`select pg_advisory_xact_lock(${ONE_WRITER})`));
    } catch (error) {
      // Kysely takes nothing back that has not begun, and the connection goes on to somebody else.
      await this.rollbackTransaction(connection);
      throw error;
    }
  }

  override async commitTransaction(connection: Connection): Promise<void> {
    const told = this.#settings.toTell();
    if (told !== null)
      await connection.executeQuery(
        CompiledQuery.raw('select pg_notify($1, $2)', [this.#settings.channel, told]),
      );
    await super.commitTransaction(connection);
  }

  /** On a connection that is lost there is nothing to take back; what was the matter must be said, not this. */
  override async rollbackTransaction(connection: Connection): Promise<void> {
    try {
      await super.rollbackTransaction(connection);
    } catch {
      // The driver throws the connection away; the server has taken it back by itself.
    }
  }
}

export class CasebookPostgresDialect extends PostgresDialect {
  readonly #settings: CasebookPostgres;

  constructor(settings: CasebookPostgres) {
    super({ pool: settings.pool });
    this.#settings = settings;
  }

  override createDriver(): Driver {
    return new OneWriterDriver(this.#settings);
  }
}
