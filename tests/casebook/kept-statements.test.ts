import Database from 'better-sqlite3';
import { Kysely, sql } from 'kysely';
import { describe, expect, it, vi } from 'vitest';
import { CasebookSqliteDialect } from '../../src-main/casebook/sqlite-dialect.ts';

interface Things {
  things: { id: number; name: string };
}

function things() {
  const database = new Database(':memory:');
  database.exec("create table things (id integer, name text); insert into things values (1, 'a'), (2, 'b')");
  const prepared = vi.spyOn(database, 'prepare');
  const db = new Kysely<Things>({ dialect: new CasebookSqliteDialect(database) });
  return { database, db, texts: () => prepared.mock.calls.map(([text]) => text) };
}

describe('statements are kept ready under their text', () => {
  it('and are read once, with other values each time', async () => {
    const { db, texts } = things();
    const named = (id: number) => db.selectFrom('things').select('name').where('id', '=', id).execute();
    expect([await named(1), await named(2), await named(3)]).toEqual([[{ name: 'a' }], [{ name: 'b' }], []]);
    await db.updateTable('things').set({ name: 'c' }).where('id', '=', 1).execute();
    expect(await named(1)).toEqual([{ name: 'c' }]);
    expect(texts()).toHaveLength(2);
  });

  it('and hold after the table was changed', async () => {
    const { db, database } = things();
    const all = () => db.selectFrom('things').selectAll().where('id', '=', 1).execute();
    expect(await all()).toEqual([{ id: 1, name: 'a' }]);
    database.exec('alter table things add column colour text default "red"');
    expect(await all()).toEqual([{ id: 1, name: 'a', colour: 'red' }]);
    database.exec('alter table things drop column name');
    expect(await all()).toEqual([{ id: 1, colour: 'red' }]);
  });

  it('and one whose rows were not gone through to the end can be asked again', async () => {
    const { db } = things();
    const query = db.selectFrom('things').select('id').orderBy('id');
    for await (const { id } of query.stream()) {
      expect(id).toBe(1);
      break;
    }
    expect(await query.execute()).toEqual([{ id: 1 }, { id: 2 }]);
  });

  it('but not more than a few hundred: the ones used last', async () => {
    const { db, texts } = things();
    const numbered = (n: number) => sql.raw(`select ${n}`).execute(db);
    for (let n = 0; n < 1000; n++) await numbered(n);
    await numbered(999);
    expect(texts()).toHaveLength(1000);
    await numbered(0);
    expect(texts()).toHaveLength(1001);
  });
});
