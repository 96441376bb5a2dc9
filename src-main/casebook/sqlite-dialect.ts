import type Database from 'better-sqlite3';
import {
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
  type DatabaseConnection,
  type DialectAdapter,
  type Driver,
} from 'kysely';

/**
 * Kysely's stock SQLite adapter says that DDL is not transactional, so a migration that fails half-way leaves its
 * tables behind. SQLite can roll DDL back; saying so makes all pending migrations one transaction.
 */
class TransactionalDdlAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

/** On a full disk SQLite rolls back by itself; a second "rollback" would fail and hide what was the matter. */
class CarefulDriver extends SqliteDriver {
  readonly #database: Database.Database;

  constructor(database: Database.Database) {
    super({ database });
    this.#database = database;
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#database.inTransaction) await super.rollbackTransaction(connection);
  }
}

export class CasebookSqliteDialect extends SqliteDialect {
  readonly #database: Database.Database;

  constructor(database: Database.Database) {
    super({ database });
    this.#database = database;
  }

  override createDriver(): Driver {
    return new CarefulDriver(this.#database);
  }

  override createAdapter(): DialectAdapter {
    return new TransactionalDdlAdapter();
  }
}
