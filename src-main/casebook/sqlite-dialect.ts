import type Database from 'better-sqlite3';
import {
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
  type DatabaseConnection,
  type DialectAdapter,
  type Driver,
  type SqliteDatabase,
  type SqliteStatement,
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

/** Statements kept ready; the screens ask some dozens. */
const MOST_KEPT = 200;

/**
 * A database that keeps its statements ready under their text: making one ready takes longer than many of them take to run.
 */
function keepingStatements(database: Database.Database): SqliteDatabase {
  const kept = new Map<string, SqliteStatement>();
  return {
    close: () => {
      kept.clear();
      database.close();
    },
    prepare(text) {
      let statement = kept.get(text);
      // The one used last stands last.
      if (statement) kept.delete(text);
      else statement = database.prepare<unknown[]>(text);
      kept.set(text, statement);
      for (const oldest of kept.keys()) {
        if (kept.size <= MOST_KEPT) break;
        kept.delete(oldest);
      }
      return statement;
    },
  };
}

/** On a full disk SQLite rolls back by itself; a second "rollback" would fail and hide what was the matter. */
class CarefulDriver extends SqliteDriver {
  readonly #database: Database.Database;

  constructor(database: Database.Database) {
    super({ database: keepingStatements(database) });
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
