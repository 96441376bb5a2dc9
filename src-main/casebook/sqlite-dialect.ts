import type Database from 'better-sqlite3';
import { SqliteAdapter, SqliteDialect, type DialectAdapter } from 'kysely';

/**
 * Kysely's stock SQLite adapter says that DDL is not transactional, so a migration that fails half-way leaves its
 * tables behind. SQLite can roll DDL back; saying so makes all pending migrations one transaction.
 */
class TransactionalDdlAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

export class CasebookSqliteDialect extends SqliteDialect {
  constructor(database: Database.Database) {
    super({ database });
  }

  override createAdapter(): DialectAdapter {
    return new TransactionalDdlAdapter();
  }
}
