import type { CasebookDb, PhotoKeeper } from '../casebook.ts';
import { hashOf } from '../photo-folder.ts';
import type { PhotoTables } from './postgres-migrations.ts';

/**
 * Photos in the database itself: stations on several machines have no folder in common, and one dump holds cases and
 * photos of the same moment.
 */
export class PostgresPhotos implements PhotoKeeper {
  readonly #db: () => CasebookDb;

  constructor(db: () => CasebookDb) {
    this.#db = db;
  }

  async keep(bytes: Buffer): Promise<string> {
    const hash = hashOf(bytes);
    if ((await this.read(hash)) === null)
      await this.#photos()
        .insertInto('photos')
        .values({ hash, bytes })
        .onConflict((conflict) => conflict.column('hash').doUpdateSet({ bytes }))
        .execute();
    return hash;
  }

  async read(hash: string): Promise<Buffer | null> {
    if (!/^[0-9a-f]{64}$/.test(hash)) return null;
    const row = await this.#photos()
      .selectFrom('photos')
      .select('bytes')
      .where('hash', '=', hash)
      .executeTakeFirst();
    return row && hashOf(row.bytes) === hash ? row.bytes : null;
  }

  async remove(hash: string): Promise<void> {
    await this.#photos().deleteFrom('photos').where('hash', '=', hash).execute();
  }

  async hashes(): Promise<readonly string[]> {
    const rows = await this.#photos().selectFrom('photos').select('hash').execute();
    return rows.map(({ hash }) => hash);
  }

  #photos() {
    return this.#db().withTables<PhotoTables>();
  }
}
