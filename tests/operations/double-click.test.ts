import { describe, expect, it } from 'vitest';
import { CALL_NAMES, type CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf } from '../../src-core/contract/calls.ts';
import { TABLE_NAMES } from '../../src-main/casebook/tables.ts';
import { jpeg } from '../photos/jpeg.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const heron = { label: 'Heron', conditions: {}, printHours: 12_000 };
const spool = { label: 'A-1', polymer: 'abs' };
const costs = { currency: 'Taler', workPerHour: 30, standstillPerHour: 6 };
const complaints = [{ observation: 'stringing', value: 'slight' }];
const caseId = '01ARZ3NDEKTSV4RRFFQ69G5FAV';
const otherId = '01ARZ3NDEKTSV4RRFFQ69G5FAT';

const ballotId = '01ARZ3NDEKTSV4RRFFQ69G5FB1';
const ballot = {
  ballotId,
  kind: 'check' as const,
  title: 'Ghosts beside every corner',
  complaints: ['Ringing'],
  choices: [{ id: 'belt-pluck-low', label: 'Belt slack' }],
};

/** What each call that writes is sent, twice, in a shop with one of everything. */
type Sent = { readonly [N in CallName]?: (ids: Ids) => InputOf<N> };
interface Ids {
  readonly printer: string;
  readonly spool: string;
  readonly person: string;
  readonly caseId: string;
  readonly action: string;
  readonly exported: string;
}

const WRITES = {
  'shop:save-printer': ({ printer }) => ({
    ...heron,
    id: printer,
    revision: 1,
    printHours: 5,
    meter: 'reset',
  }),
  'shop:save-spool': ({ spool: id }) => ({ ...spool, id, revision: 1, note: 'from the window' }),
  'shop:save-person': ({ person }) => ({ id: person, revision: 1, initials: 'RK', role: 'trainer' }),
  'shop:delete-record': ({ spool: id }) => ({ kind: 'spool', id, revision: 1 }),
  'shop:save-climate': () => ({
    climate: { kind: 'measured', temperatureC: 24, percentRh: 61 },
    revision: 0,
  }),
  'shop:save-costs': () => ({ costs, revision: 0 }),
  'shop:save-display': () => ({ display: { theme: 'dark', temperatureUnit: '°F' }, revision: 0 }),
  'spool:log': ({ spool: spoolId }) => ({
    spoolId,
    event: { kind: 'grams-left', grossGrams: 800, tareGrams: 210 },
    revision: 0,
  }),
  'case:open': () => ({ complaints, caseId: '01ARZ3NDEKTSV4RRFFQ69G5FAW' }),
  'case:send': () => ({ caseId, revision: 1, event: { kind: 'noted', text: 'twice' } }),
  'photo:keep': () => ({ base64: jpeg().toString('base64') }),
  'action:open': () => ({ plan: { title: 'Seal the tubs', kind: 'habit' } }),
  'action:log': ({ action: actionId }) => ({
    actionId,
    revision: 1,
    event: { kind: 'snoozed', until: '2026-03-20' },
  }),
  'case:reassign': ({ printer: printerId }) => ({ cases: [{ caseId, revision: 1, printerId }] }),
  'case:merge': () => ({ caseId: otherId, revision: 1, into: { caseId, revision: 1 } }),
  'case:link': () => ({ caseId, revision: 1, from: otherId }),
  'case:save-views': () => ({ views: [{ name: 'Heron, open', filter: 'state=open' }], revision: 0 }),
  'case:delete': () => ({ caseId, revision: 1 }),
  'bin:restore': () => ({ caseId }),
  'bin:empty': () => ({}),
  'spreadsheet:import': () => ({
    fileName: 'old.csv',
    text: 'Date,Fault,Cause\n2026-01-05,Stringing,Wet filament\n',
    mapping: { columns: { opened: 'Date', complaint: 'Fault', cause: 'Cause' } },
    isDryRun: false,
  }),
  'spreadsheet:undo': () => ({ importId: '01ARZ3NDEKTSV4RRFFQ69G5FAZ' }),
  'person:rename': ({ person: personId }) => ({ personId, initials: 'RX', revision: 1 }),
  'person:remove': ({ person: personId }) => ({ personId, revision: 1 }),
  'maintenance:log': ({ printer: printerId }) => ({
    printerId,
    event: { kind: 'done', task: 'check-belts' },
    revision: 0,
  }),
  'maintenance:save-plan': () => ({
    plan: { rules: [{ model: '', task: 'check-belts', label: null, every: { days: 30 } }] },
    revision: 0,
  }),
  'lead:save-experience': () => ({ choice: { mode: 'on', until: null }, revision: 0 }),
  'training:keep': ({ person: personId }) => ({
    personId,
    resultId: '01ARZ3NDEKTSV4RRFFQ69G5FAY',
    done: { kind: 'read', lesson: 'water' },
  }),
  'training:forget': ({ person: personId }) => ({ personId }),
  'vote:ask': () => ({ ...ballot, ballotId: '01ARZ3NDEKTSV4RRFFQ69G5FB2' }),
  'vote:reveal': () => ({ ballotId, result: { hands: { 'belt-pluck-low': 3 }, outcome: null, right: [] } }),
  'vote:end': () => ({}),
  'lead:save-humidity': () => ({ month: '2026-01', percentRh: 55, revision: 0 }),
  'lead:save-time-zone': () => ({ timeZone: 'Europe/Berlin' }),
  'lead:save-usual-hours': ({ printer: printerId }) => ({ printerId, hoursPerWeek: 40 }),
  'case:import': ({ exported }) => ({ jsonLines: exported.replaceAll(caseId, '01ARZ3NDEKTSV4RRFFQ69G5FAX') }),
} satisfies Sent;

/** Calls that only read, only work something out, or lead back to a casebook that was lost. */
const WRITES_NOTHING_TWICE: ReadonlySet<CallName> = new Set([
  'host:info',
  'guide:read',
  'guide:cause',
  'guide:observation',
  'guide:statements',
  'bench:read',
  'shop:read',
  'spool:read',
  'spool:storage',
  'job:begin',
  'job:piece',
  'job:end',
  'job:drop',
  'log:read',
  'flow:sheet',
  'work:look',
  'work:stop',
  'fit:materials',
  'case:view',
  'case:why-candidate',
  'case:why-check',
  'case:second-thoughts',
  'case:last-time',
  'case:list',
  'case:timeline',
  'case:then-and-now',
  'case:export',
  'lead:experience',
  'lead:guide-use',
  'lead:recurrence',
  'lead:season',
  'action:list',
  'action:count-due',
  'maintenance:list',
  'report:make',
  // A file outside the casebook, where somebody said.
  'report:save-pdf',
  'bin:list',
  'case:profiles',
  'case:tags',
  'case:views',
  'spreadsheet:look',
  'spreadsheet:imports',
  'maintenance:history',
  'training:view',
  'training:why-candidate',
  'training:why-check',
  'training:second-thoughts',
  'training:options',
  'training:drill',
  'training:record',
  'training:photos',
  // tests/operations/training.test.ts: of a case with a photo.
  'training:free-photo',
  'training:class',
  'training:export',
  'vote:look',
  // tests/operations/votes.test.ts: from a device only.
  'vote:cast',
  'backup:list',
  // tests/operations/case-links.test.ts
  'case:part',
  // tests/operations/operations.test.ts: two hands on the demo shop.
  'demo:load',
  'demo:remove',
  // tests/casebook: a restore at a time, and an empty casebook is begun once.
  'casebook:begin-empty',
  'backup:make',
  'backup:restore',
  'access:me',
  'access:list',
  // tests/operations/access.test.ts: a second code is another code; each of the others is as before when it is done again, but
  // for its line in the list of who did what.
  'access:invite',
  'access:change-device',
  'access:revoke-device',
  'access:set-pin',
  'access:sign-in',
  'access:sign-out',
  // tests/station/network-door.test.ts
  'network:read',
  'network:switch',
]);

async function shopOfOne() {
  const test = await programInMemory();
  const { ask } = test;
  await ask('shop:save-printer', heron);
  await ask('shop:save-spool', spool);
  const shop = await ask('shop:save-person', { initials: 'RK', role: 'lead' });
  await ask('case:open', { complaints, caseId });
  await ask('case:open', { complaints, caseId: otherId });
  await ask('vote:ask', ballot);
  const { actions } = await ask('action:open', { plan: { title: 'Oil the rails', kind: 'maintenance' } });
  const ids: Ids = {
    printer: shop.printers[0]?.id ?? '',
    spool: shop.spools[0]?.id ?? '',
    person: shop.people[0]?.id ?? '',
    caseId,
    action: actions[0]?.actionId ?? '',
    exported: (await ask('case:export', {})).jsonLines,
  };
  return { ...test, ids };
}

/** How many rows each table has, and how often each was written where it says so; ids differ from run to run. */
async function writtenIn({ program }: TestProgram): Promise<unknown> {
  const tables = TABLE_NAMES.map(async (name) => {
    const rows = await program.casebook.db.selectFrom(name).selectAll().execute();
    return [name, rows.map((row) => ('revision' in row ? row.revision : 'a row'))];
  });
  return Promise.all(tables);
}

describe('a double click writes nothing twice', () => {
  it('and every call is thought of', () => {
    const thoughtOf = [...Object.keys(WRITES), ...WRITES_NOTHING_TWICE].sort();
    expect(thoughtOf).toEqual([...CALL_NAMES].sort());
  });

  it.each(Object.keys(WRITES) as (keyof typeof WRITES)[])('of %s', async (name) => {
    const test = await shopOfOne();
    const input = WRITES[name](test.ids) as InputOf<CallName>;
    const once = await shopOfOne();
    await once.ask(name, WRITES[name](once.ids) as InputOf<CallName>);
    const writtenOnce = await writtenIn(once);

    const replies = await Promise.all([test.dispatcher.call(name, input), test.dispatcher.call(name, input)]);
    expect(replies.some(({ ok }) => ok)).toBe(true);
    for (const reply of replies)
      if (!reply.ok) {
        expect(reply.error.code).toBe('stale');
        expect(reply.error.current).toBeDefined();
      }
    expect(await writtenIn(test)).toEqual(writtenOnce);
  });
});
