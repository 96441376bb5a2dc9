import { inEnglish } from '../../src-core/words/in-english.ts';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { sql } from 'kysely';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { FileCasebook } from '../../src-main/casebook/file-casebook.ts';
import { failure } from '../../src-main/casebook/open-database.ts';
import { savePrinter } from '../../src-main/casebook/printer.repository.ts';
import { casebookFile } from '../../src-main/bootstrap/program-files.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const NOON = Date.parse('2026-03-02T12:00:00.000Z');
const HOUR = 3_600_000;

async function opened(folder: string, nowMs = NOON): Promise<FileCasebook> {
  const casebook = new FileCasebook(path.join(folder, 'casebook.sqlite'), () => new Date(nowMs));
  await casebook.open();
  onTestFinished(() => casebook.close());
  return casebook;
}

/** A closed casebook with one case in it and, where asked for, a backup. */
async function withOneCase(options: { readonly backup?: boolean } = {}) {
  const folder = temporaryFolder();
  const file = path.join(folder, 'casebook.sqlite');
  const { ask, program } = await programInMemory({ file });
  await ask('case:open', { complaints: [{ observation: 'stringing', value: 'slight' }] });
  const backup = options.backup ? ((await program.casebook.upkeep?.makeBackup()) ?? null) : null;
  await program.casebook.close();
  return { folder, file, backup };
}

const caseCount = (casebook: FileCasebook) =>
  casebook.db
    .selectFrom('cases')
    .select(({ fn }) => fn.countAll<number>().as('count'))
    .executeTakeFirst()
    .then((row) => row?.count);

/** Why what needs the rights of files is not played here; empty where it is. */
const NO_RIGHTS =
  process.getuid === undefined
    ? ', not played: this system has no owners and rights of files as Unix has'
    : '';

describe('attack 2: an empty (zero-length) casebook', () => {
  it('is not taken for a new one: it is said, left as it is, and leads to the backup', async () => {
    const { folder, file, backup } = await withOneCase({ backup: true });
    truncateSync(file, 0);
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toMatch(/is empty \(0 bytes\).*left untouched/);
    expect(casebook.problem).toContain(backup?.name);
    expect(statSync(file).size).toBe(0);
    expect(casebook.listBackups()).toHaveLength(1);
    await casebook.restore(backup?.name ?? '');
    expect(await caseCount(casebook)).toBe(1);
  });

  it('without any backup too, and an empty one is begun only when asked for', async () => {
    const { folder, file } = await withOneCase();
    truncateSync(file, 0);
    const casebook = await opened(folder);
    expect([casebook.isOpen, casebook.canBeginEmpty]).toEqual([false, true]);
    expect(casebook.problem).not.toMatch(/move the file away|delete/i);
    await casebook.beginEmpty();
    expect(casebook.isOpen).toBe(true);
    expect(readdirSync(folder).some((name) => name.includes('before-restore'))).toBe(true);
  });

  it('is never left behind by a first start that is killed half-way', async () => {
    const folder = temporaryFolder();
    // What a kill while the first schema was written leaves.
    writeFileSync(path.join(folder, 'casebook.sqlite.new'), '');
    writeFileSync(path.join(folder, 'casebook.sqlite.new-journal'), 'half');
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(true);
    expect(readdirSync(folder).filter((name) => name.includes('.new'))).toEqual([]);
  });
});

describe('attack 3: a clock that has gone back', () => {
  it('opens the casebook, and neither removes the backup just made nor an older one', async () => {
    const folder = temporaryFolder();
    let nowMs = NOON;
    const casebook = new FileCasebook(path.join(folder, 'casebook.sqlite'), () => new Date(nowMs));
    await casebook.open();
    await savePrinter(casebook.db, printer, new Date(nowMs).toISOString());
    for (let hour = 0; hour < 60; hour++) {
      nowMs = NOON + hour * HOUR;
      await casebook.makeBackup();
    }
    const before = casebook.listBackups().length;
    await casebook.close();
    const later = await opened(folder, NOON - 1000 * HOUR);
    expect(later.isOpen).toBe(true);
    expect(later.warnings).toEqual([]);
    expect(later.listBackups()).toHaveLength(before + 1);
    await later.makeBackup();
    await later.makeBackup();
    expect(later.listBackups().length).toBeGreaterThanOrEqual(before + 1);
  });
});

describe('attack 4: a casebook of a newer version', () => {
  it('is named as such, not written to, and no older backup is recommended', async () => {
    const { folder, file } = await withOneCase({ backup: true });
    const newer = new Database(file);
    newer.exec(
      "insert into kysely_migration values ('2999-01-01-of-tomorrow', '2999-01-01T00:00:00Z'); alter table cases add column tomorrow text",
    );
    newer.close();
    const before = readFileSync(file);
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toMatch(/newer Beadwright.*2999-01-01-of-tomorrow/);
    expect(casebook.problem).not.toMatch(/restore|backup/i);
    expect(casebook.canBeginEmpty).toBe(false);
    expect(readFileSync(file).equals(before)).toBe(true);
  });
});

describe('a casebook whose list of migrations is damaged', () => {
  it.each([
    ['emptied names', "update kysely_migration set name = ''  || rowid"],
    [
      'a letter turned in one of them',
      "update kysely_migration set name = '2026-11-25-fjrst' where name = '2026-11-25-first'",
    ],
  ])(
    'is called damaged, not newer, and the way back is named (long attack: a page of zeros): %s',
    async (_, damage) => {
      const { folder, file } = await withOneCase({ backup: true });
      const damaged = new Database(file);
      damaged.exec(damage);
      damaged.close();
      const casebook = await opened(folder);
      expect(casebook.isOpen).toBe(false);
      expect(casebook.problem).toMatch(/cannot be read/);
      expect(casebook.problem).not.toMatch(/newer/);
      const [backup] = casebook.listBackups();
      expect(casebook.problem).toContain(backup?.name);
      await casebook.restore(backup?.name ?? '');
      expect(casebook.isOpen).toBe(true);
    },
  );
});

describe('attack 5: no room, or no right to write', () => {
  it('a backups folder that cannot be written is a warning, not a refusal', async () => {
    const { folder } = await withOneCase();
    // A file in the folder's place is refused to root as well, which a read-only folder is not.
    rmSync(path.join(folder, 'backups'), { recursive: true, force: true });
    writeFileSync(path.join(folder, 'backups'), 'not a folder');
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(true);
    expect(inEnglish(casebook.warnings)).toMatch(/No backup could be made in .*backups/);
    expect(await caseCount(casebook)).toBe(1);
    await expect(casebook.makeBackup()).rejects.toThrow(/No backup could be made/);
  });

  it.each([
    ['ENOSPC', /the disk is full.*Make room/],
    ['SQLITE_FULL', /the disk is full.*Make room/],
    ['EACCES', /may only be read.*right to write/],
    ['EROFS', /may only be read.*right to write/],
    ['SQLITE_READONLY_DIRECTORY', /may only be read.*right to write/],
    ['SQLITE_CANTOPEN', /folder is not there or may not be written/],
    ['SQLITE_BUSY', /another program has it open/],
  ])('%s while opening is said in words that cost no data', (code, words) => {
    const { said } = failure('/shop/casebook.sqlite', Object.assign(new Error('x'), { code }));
    expect(inEnglish(said)).toMatch(words);
    expect(inEnglish(said)).not.toMatch(/restore|backup|move|delete|empty/i);
  });

  it('a casebook that may only be read is said so at the start, not at the first answer (attack, low: read-only)', async () => {
    const { folder } = await withOneCase();
    const file = path.join(folder, 'casebook.sqlite');
    const before = readFileSync(file);
    // Rights on the file would not hold back the superuser, whom tests may run as: SQLite is told to open it for reading.
    vi.resetModules();
    vi.doMock('better-sqlite3', async (original) => {
      const { default: Real } = await original<{ default: typeof Database }>();
      class ReadOnly extends Real {
        constructor(name: string, options: Database.Options = {}) {
          super(name, { ...options, readonly: true });
        }
      }
      return { default: ReadOnly };
    });
    onTestFinished(() => {
      vi.doUnmock('better-sqlite3');
      vi.resetModules();
    });
    const { openDatabase } = await import('../../src-main/casebook/open-database.ts');
    const result = openDatabase(file);
    expect(result).toMatchObject({ ok: false, trouble: 'not-writable' });
    expect(result.ok ? '' : inEnglish(result.said)).toMatch(/may only be read.*right to write/);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('attack 17: a disk that fills while an answer is written is called that, and the answer before is kept', async () => {
    const { ask, dispatcher, program } = await programInMemory({
      file: path.join(temporaryFolder(), 'casebook.sqlite'),
    });
    const { caseId } = await ask('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    const pages = await sql<{ page_count: number }>`pragma page_count`.execute(program.casebook.db);
    await sql`pragma max_page_count = ${sql.lit(pages.rows[0]?.page_count ?? 0)}`.execute(
      program.casebook.db,
    );
    let refused: unknown;
    let revision = 1;
    for (let note = 0; note < 50 && refused === undefined; note++) {
      const event = { kind: 'noted', text: 'x'.repeat(1900) } as const;
      const reply = await dispatcher.call('case:send', { caseId, revision, event });
      if (reply.ok) revision++;
      else refused = reply.error;
    }
    expect(refused).toMatchObject({ code: 'refused', message: expect.stringMatching(/disk is full/) });
    await sql`pragma max_page_count = 1000000`.execute(program.casebook.db);
    expect((await ask('case:view', { caseId })).revision).toBe(revision);
    const event = { kind: 'noted', text: 'with room again' } as const;
    expect((await ask('case:send', { caseId, revision, event })).revision).toBe(revision + 1);
  });

  it.skipIf(NO_RIGHTS)(
    `a read-only casebook is said at the start, not at the first answer${NO_RIGHTS}`,
    async () => {
      const { folder, file } = await withOneCase();
      const { chmodSync, chownSync } = await import('node:fs');
      chmodSync(folder, 0o755);
      for (const name of readdirSync(folder)) if (name.includes('.lock')) rmSync(path.join(folder, name));
      // Without the casebook's lock in the way: only the file itself is looked at.
      chmodSync(file, 0o444);
      const isRoot = process.getuid?.() === 0;
      if (isRoot) {
        chownSync(folder, 65_534, 65_534);
        process.seteuid?.(65_534);
      }
      try {
        const casebook = await opened(folder);
        expect(casebook.isOpen).toBe(false);
        expect(casebook.problem).toMatch(/only be read.*right to write/);
        expect(casebook.problem).not.toMatch(/backup/i);
        await casebook.close();
      } finally {
        if (isRoot) process.seteuid?.(0);
      }
    },
  );
});

describe('a casebook that is half there', () => {
  it('truncated: said, left as it is, and brought back from the backup', async () => {
    const { folder, file, backup } = await withOneCase({ backup: true });
    truncateSync(file, Math.floor(statSync(file).size / 2));
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toMatch(/cannot be read.*left untouched/);
    await casebook.restore(backup?.name ?? '');
    expect(await caseCount(casebook)).toBe(1);
  });

  it('with a table gone though every page is whole: said', async () => {
    const { folder, file } = await withOneCase({ backup: true });
    const half = new Database(file);
    half.exec('pragma foreign_keys = off; drop table case_events');
    half.close();
    const casebook = await opened(folder);
    expect(casebook.isOpen).toBe(false);
    expect(casebook.problem).toMatch(/no case_events any more.*newest good backup/);
  });

  it('missing, with only a set-aside one beside it: asked about, not begun anew', async () => {
    const { folder, file } = await withOneCase();
    const { renameSync } = await import('node:fs');
    renameSync(file, `${file}.before-restore-2026-03-02T12-00-00-000Z`);
    const casebook = await opened(folder);
    expect([casebook.isOpen, casebook.canBeginEmpty]).toEqual([false, true]);
    expect(casebook.problem).toContain('before-restore');
  });
});

describe('a damaged journal', () => {
  /** The files of a casebook in use, as a kill leaves them. */
  async function killed() {
    const folder = temporaryFolder();
    const first = await opened(folder);
    for (let one = 0; one < 20; one++)
      await savePrinter(
        first.db,
        { ...printer, id: `P${one}`, label: `P${one}` },
        new Date(NOON).toISOString(),
      );
    const left = temporaryFolder();
    for (const name of ['casebook.sqlite', 'casebook.sqlite-wal'])
      writeFileSync(path.join(left, name), readFileSync(path.join(folder, name)));
    return { left, log: path.join(left, 'casebook.sqlite-wal') };
  }

  it('is said at the start, where SQLite passes over it without a word', async () => {
    const { left, log } = await killed();
    const bytes = readFileSync(log);
    bytes.fill(0xa5, 32 + 24 + 100, 32 + 24 + 200);
    writeFileSync(log, bytes);
    const casebook = await opened(left);
    expect(casebook.isOpen).toBe(true);
    expect(inEnglish(casebook.warnings)).toMatch(/journal.*may be missing/);
    await casebook.makeBackup();
    expect(inEnglish(casebook.warnings)).toMatch(/may be missing/);
  });

  it('that does not even begin like one too', async () => {
    const { left, log } = await killed();
    writeFileSync(log, 'x'.repeat(9000));
    expect(inEnglish((await opened(left)).warnings)).toMatch(/may be missing/);
  });

  it('but not one that is whole, or that ends in what nobody was told of', async () => {
    const whole = await killed();
    expect((await opened(whole.left)).warnings).toEqual([]);
    const cut = await killed();
    truncateSync(cut.log, statSync(cut.log).size - 2000);
    const casebook = await opened(cut.left);
    expect(casebook.isOpen).toBe(true);
  });
});

describe('attack 6: BEADWRIGHT_CASEBOOK', () => {
  it.each(['', '  '])(
    'set to "%s" means the usual place, not a database that is gone after the start',
    (named) => {
      const file = casebookFile({ BEADWRIGHT_CASEBOOK: named, XDG_DATA_HOME: '/data', APPDATA: '/data' });
      expect(path.basename(file)).toBe('casebook.sqlite');
      expect(path.basename(path.dirname(file))).toBe('beadwright');
    },
  );
});

describe.skipIf(NO_RIGHTS)(`attack 7: other users of the machine${NO_RIGHTS}`, () => {
  it('can enter no folder and read no file of the casebook', async () => {
    const folder = path.join(temporaryFolder(), 'beadwright');
    const casebook = await opened(folder);
    const { name } = await casebook.makeBackup();
    const mode = (file: string) => (statSync(file).mode & 0o777).toString(8);
    expect([mode(folder), mode(casebook.backupFolder)]).toEqual(['700', '700']);
    for (const file of ['casebook.sqlite', 'casebook.sqlite-wal', 'casebook.sqlite.lock', `backups/${name}`])
      expect([file, mode(path.join(folder, file))]).toEqual([file, '600']);
  });

  it('lose the rights that an earlier version left them', async () => {
    const { folder, file, backup } = await withOneCase({ backup: true });
    const { chmodSync } = await import('node:fs');
    const kept = path.join(folder, 'backups', backup?.name ?? '');
    for (const [one, rights] of [
      [file, 0o644],
      [kept, 0o644],
      [path.dirname(kept), 0o755],
    ] as const)
      chmodSync(one, rights);
    await opened(folder, NOON + 2 * HOUR);
    const mode = (one: string) => (statSync(one).mode & 0o777).toString(8);
    expect([mode(file), mode(kept), mode(path.dirname(kept))]).toEqual(['600', '600', '700']);
  });
});

describe('B7: the lock', () => {
  it('left empty by a full disk, or naming a number that another program has now, keeps nobody out', async () => {
    for (const left of ['', '1', String(process.ppid)]) {
      const folder = temporaryFolder();
      mkdirSync(folder, { recursive: true });
      writeFileSync(path.join(folder, 'casebook.sqlite.lock'), left);
      expect((await opened(folder)).isOpen, `lock "${left}"`).toBe(true);
    }
  });

  it('held by another process keeps the second out, whatever the lock file says', async () => {
    const folder = temporaryFolder();
    const first = await opened(folder);
    const second = await opened(folder);
    expect([first.isOpen, second.isOpen]).toEqual([true, false]);
    expect(second.problem).toContain(`process ${process.pid}`);
    expect(second.canRestore).toBe(false);
  });
});

const printer = {
  id: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
  label: 'Heron',
  conditions: {},
  printHours: 12,
  note: '',
  isRetired: false,
  isDemo: false,
};
