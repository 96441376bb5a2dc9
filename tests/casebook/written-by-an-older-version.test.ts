import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { isNightly } from '../nightly.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';

/**
 * A casebook as the program of 26 November 2026 wrote it: the demo shop, and cases of the shop's own that rest,
 * were cured, were taken up again and were handed over. Never rewritten: it is what a shop has on its disk.
 */
const FIXTURE = path.join(import.meta.dirname, 'fixtures', 'casebook-2026-11-26.sqlite.gz');
const CASES = 146;

/** The shop's own cases, as that program showed them. */
const OWN_CASES = [
  { caseId: '01M88VTYJ0NG7F52E6YZMVT225', what: 'cured and closed', state: 'closed', revision: 8 },
  {
    caseId: '01M88X37M0A9PJ59NQQD8ZWBH6',
    what: 'parked after the remedy was done',
    state: 'parked',
    revision: 7,
  },
  { caseId: '01M88Y60X0NP1YJQD7PNXT0EVC', what: 'parked while checking', state: 'parked', revision: 5 },
  {
    caseId: '01M88YXTM043W58N2EE23320PW',
    what: 'cured, closed and reopened',
    state: 'checking',
    revision: 9,
  },
  {
    caseId: '01M890BKF029MF829F8MFSD3C3',
    what: 'closed without a remedy, reopened, closed again',
    state: 'closed',
    revision: 5,
  },
  { caseId: '01M8913D60Z0QFFMA20DR9XH11', what: 'handed over', state: 'handed-over', revision: 6 },
  { caseId: '01M8920PP01YZVMTNKST1F6RZS', what: 'with a danger sign', state: 'make-safe', revision: 2 },
  { caseId: '01M8928120QJSTCRGB3F803KXH', what: 'with taken-back answers', state: 'verdict', revision: 7 },
];

async function openedFixture() {
  const file = path.join(temporaryFolder(), 'casebook.sqlite');
  writeFileSync(file, gunzipSync(readFileSync(FIXTURE)));
  // The clock of a day after the last entry.
  return programInMemory({ file, start: '2026-11-27T08:00:00.000Z' });
}

describe('a casebook written by the version of 26 November 2026', () => {
  it('opens, and what is in it can be read and exported', async () => {
    const { program, ask } = await openedFixture();
    expect(program.casebook.isOpen).toBe(true);
    const { total, rows } = await ask('case:list', { limit: 200 });
    expect([total, rows.length]).toEqual([CASES, CASES]);
    // By day each of the shop's own and every fourth of the demo's; by night all.
    const isOwn = ({ caseId }: (typeof rows)[number]) => OWN_CASES.some((own) => own.caseId === caseId);
    const read = rows.filter((row) => isNightly || isOwn(row) || row.number % 4 === 0);
    expect(read.filter(isOwn)).toHaveLength(OWN_CASES.length);
    for (const row of read) {
      const view = await ask('case:view', { caseId: row.caseId });
      expect([view.number, view.state]).toEqual([row.number, row.state]);
    }
    const { count } = await ask('case:export', { caseIds: null });
    expect(count).toBe(CASES);
  }, 1_200_000);

  it.each(OWN_CASES)('shows the case $what as it was left', async ({ caseId, state, revision }) => {
    const { ask } = await openedFixture();
    const view = await ask('case:view', { caseId });
    expect(view).toMatchObject({ state, revision });
    const timeline = await ask('case:timeline', { caseId });
    expect([timeline.steps.length > 0, timeline.refusedSeq]).toEqual([true, null]);
  });

  it('keeps the shop, its people, meters, spools and what was logged about them', async () => {
    const { ask } = await openedFixture();
    const shop = await ask('shop:read', {});
    expect(shop.hasDemo).toBe(true);
    expect(shop.printers.find(({ label }) => label === 'Own machine')).toMatchObject({
      printHours: 1234,
      note: 'by the window',
      openCases: 4,
    });
    const spool = shop.spools.find(({ label }) => label === 'Own A-1');
    expect((await ask('spool:read', { spoolId: spool?.id ?? '' })).log).toHaveLength(1);
    expect(shop.climate).toMatchObject({ kind: 'measured', percentRh: 48 });
  });
});
