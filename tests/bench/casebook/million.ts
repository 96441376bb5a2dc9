import { existsSync, renameSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { Kysely } from 'kysely';
import type { Knowledge } from '../../../src-core/knowledge/knowledge.ts';
import { seededRandom } from '../../../src-core/training/seeded-random.ts';
import { migrateToLatest, migrations, migrationsTelling } from '../../../src-main/casebook/migrate.ts';
import { CasebookSqliteDialect } from '../../../src-main/casebook/sqlite-dialect.ts';
import type { Tables } from '../../../src-main/casebook/tables.ts';

const PRINTERS = 24;
const SPOOLS = 8000;
const PEOPLE = ['AB', 'KM', 'RS', 'JO', 'TW', 'EH', 'NP', 'LV'];
const YEARS = 10;
/** The last moment of the casebook. */
const LAST = Date.parse('2026-11-01T00:00:00.000Z');
const FIRST = LAST - YEARS * 365 * 24 * 3_600_000;
/** One of so many cases is still open. */
const OPEN_IN = 2000;
const REMARKS = [
  'after lunch, second plate of the day',
  'first layer looked fine, then it began at the corner',
  'only on the tall part, the flat ones beside it are clean',
  'we changed the spool and it went on',
  'noise from the extruder before it stopped',
  'the night shift had seen it on Tuesday already',
  'same as last month, the other way round',
  'customer part, be careful with the surface',
];

/**
 * Builds a casebook of so many cases with a fixed seed, straight into the tables of the version before the search index, and
 * then brings it to today's form as a start does. Built once: a file that is there is taken as it is.
 */
export async function buildCasebook(
  file: string,
  cases: number,
  knowledge: Knowledge,
  say: (words: string) => void,
): Promise<void> {
  if (existsSync(file)) return;
  const unfinished = `${file}.new`;
  for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(unfinished + ending, { force: true });
  const database = new Database(unfinished);
  database.pragma('journal_mode = off');
  database.pragma('synchronous = off');
  const db = new Kysely<Tables>({ dialect: new CasebookSqliteDialect(database) });
  const before = Object.fromEntries(Object.entries(migrations).filter(([name]) => name < '2026-12-04'));
  await migrateToLatest(db, before);
  const began = performance.now();
  fill(database, cases, knowledge);
  say(`rows of ${cases.toLocaleString('en-GB')} cases written in ${seconds(began)}`);
  const migrating = performance.now();
  let told = 0;
  await migrateToLatest(
    db,
    migrationsTelling((share) => {
      if (share < told + 0.2) return;
      told = share;
      say(`index: ${Math.round(share * 100)} %`);
    }),
  );
  say(`brought to today's form in ${seconds(migrating)}`);
  database.pragma('journal_mode = wal');
  await db.destroy();
  renameSync(unfinished, file);
}

function fill(database: Database.Database, cases: number, knowledge: Knowledge): void {
  const random = seededRandom(20261127);
  const id = (kind: string, n: number) => `${kind}${String(n).padStart(26 - kind.length, '0')}`;
  // Few things make most of the trouble: the square of a uniform number lies near the beginning.
  const often = <T>(of: readonly T[]): T => of[Math.floor(random() ** 2 * of.length)] as T;
  const some = [...knowledge.observations.values()].filter(({ kind }) => kind === 'sign');
  const causes = [...knowledge.causes.values()];
  const remedies = [...knowledge.remedies.values()];

  database.exec('begin');
  const printer = database.prepare(
    `insert into printers (id, label, model, conditions_json, note, is_retired, is_demo, revision) values (?, ?, '', '{}', '', 0, 0, 1)`,
  );
  for (let n = 0; n < PRINTERS; n++) printer.run(id('P', n), `${BIRDS[n] ?? 'Bird'} ${n + 1}`);
  const reading = database.prepare(
    `insert into hour_readings (printer_id, at, total_hours, kind) values (?, ?, ?, 'read')`,
  );
  for (let n = 0; n < PRINTERS; n++)
    for (let month = 0; month <= YEARS * 12; month++)
      reading.run(
        id('P', n),
        new Date(FIRST + ((LAST - FIRST) * month) / (YEARS * 12)).toISOString(),
        month * (200 + 10 * n),
      );
  const spool = database.prepare(
    `insert into spools (id, label, polymer, filler, note, is_retired, is_demo, diameter_mm, filament_grams, supplier, batch, body, revision)
     values (?, ?, ?, 'none', '', 0, 0, 1.75, 1000, '', '', 'plastic', 1)`,
  );
  const polymers = ['pla', 'petg', 'abs', 'asa', 'pa6'];
  for (let n = 0; n < SPOOLS; n++)
    spool.run(id('F', n), `${(polymers[n % 5] ?? '').toUpperCase()} ${n}`, polymers[n % 5]);

  const one = database.prepare(
    `insert into cases values (@id, @number, @state, @revision, @openedAt, @closedAt, @printerId, @spoolId, @openedBy, @complaint,
     @causeLabel, @isConfirmed, null, @minutesLost, @gramsScrapped, @searchText, @guide, 'bench', 0)`,
  );
  const event = database.prepare(`insert into case_events values (?, ?, ?, ?, ?, 'bench')`);
  const named = database.prepare(`insert into case_causes values (?, 0, ?, ?, 0)`);
  for (let n = 0; n < cases; n++) {
    const caseId = id('C', n);
    const openedMs = FIRST + Math.floor(((LAST - FIRST) * (n + random())) / cases);
    const isOpen = random() * OPEN_IN < 1;
    const complaint = often(some);
    const cause = often(causes);
    const remedy = often(remedies);
    const remark = often(REMARKS);
    const openedBy = often(PEOPLE);
    const openedAt = new Date(openedMs).toISOString();
    const closedAt = new Date(openedMs + 3_600_000).toISOString();
    const printerId = id('P', Math.floor(random() * PRINTERS));
    const intake = {
      printerId,
      spoolId: id('F', Math.floor(random() * SPOOLS)),
      openedBy,
      conditions: {},
      complaints: [{ observation: complaint.id, value: 'present' }],
      words: remark,
    };
    one.run({
      id: caseId,
      number: n + 1,
      state: isOpen ? 'checking' : 'closed',
      revision: isOpen ? 1 : 2,
      openedAt,
      closedAt: isOpen ? null : closedAt,
      printerId,
      spoolId: intake.spoolId,
      openedBy,
      complaint: complaint.label,
      causeLabel: cause.label,
      isConfirmed: isOpen ? 0 : 1,
      minutesLost: isOpen ? 0 : Math.round(10 + 200 * random() ** 3),
      gramsScrapped: isOpen ? 0 : Math.round(300 * random() ** 3),
      searchText: [
        complaint.label,
        cause.label,
        remark,
        openedBy,
        `${complaint.label}: present`,
        'No sign of danger',
        `${often(some).label}: absent`,
        `${often(some).label}: present`,
        `Remedy: ${remedy.label}`,
        'Remedy carried out',
        'Cured',
        `Closed: ${cause.label}`,
      ]
        .join(' ')
        .toLowerCase(),
      guide: knowledge.version,
    });
    event.run(caseId, 1, openedAt, JSON.stringify({ kind: 'opened', intake }), knowledge.version);
    if (isOpen) continue;
    event.run(
      caseId,
      2,
      closedAt,
      JSON.stringify({
        kind: 'closed',
        causes: [{ cause: cause.id }],
        practice: null,
        minutesLost: 30,
        gramsScrapped: 5,
        note: '',
      }),
      knowledge.version,
    );
    named.run(caseId, cause.id, cause.label);
  }
  database.exec('commit');
}

const BIRDS =
  'Heron Kestrel Avocet Plover Curlew Dunlin Knot Sanderling Turnstone Whimbrel Godwit Redshank Lapwing Snipe Ruff Stint Osprey Merlin Hobby Harrier Kite Bunting Pipit Wagtail'.split(
    ' ',
  );

function seconds(began: number): string {
  return `${((performance.now() - began) / 1000).toFixed(0)} s`;
}
