import { inEnglish } from '../../src-core/words/in-english.ts';
import { speak } from '../../src-renderer/messages/language.ts';
import { parse } from '../../src-renderer/messages/parse-pattern.ts';
import { wordsIn } from '../../src-renderer/wording/words-in.ts';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../src-core/contract/calls.ts';
import type { Change } from '../../src-core/contract/change.ts';
import type { Reply } from '../../src-core/contract/reply.ts';
import { Doorkeeper } from '../../src-main/operations/access/doorkeeper.ts';
import {
  pinDoors,
  triedOnceMore,
  waitMs,
  type Tried,
} from '../../src-main/operations/access/attempt-gate.ts';
import { isPin, pinHash } from '../../src-main/operations/access/pin-hash.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { programInMemory, type TestProgram } from './program-in-memory.ts';

const tablet = { label: 'Tablet at Heron', role: 'operator' } as const;

async function shop(options: Parameters<typeof programInMemory>[0] = {}) {
  const test = await programInMemory(options);
  const doorkeeper = new Doorkeeper(test.program);
  return { ...test, doorkeeper };
}

/** Joins by a new code. */
async function joined(
  { ask, doorkeeper }: Pick<TestProgram, 'ask'> & { readonly doorkeeper: Doorkeeper },
  input: InputOf<'access:invite'> = tablet,
) {
  const { code } = await ask('access:invite', input);
  const device = await doorkeeper.join(code, '10.0.0.7');
  if (!device.ok) throw new Error(inEnglish(device.said));
  return device;
}

/** Calls as a device does: its secret is looked at each time. */
function asDevice(
  { dispatcher, doorkeeper }: Pick<TestProgram, 'dispatcher'> & { readonly doorkeeper: Doorkeeper },
  { deviceId, secret }: { readonly deviceId: string; readonly secret: string },
) {
  return async <N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>> => {
    const visitor = await doorkeeper.recognise(deviceId, secret);
    if (!visitor) throw new Error('not let in');
    return (await dispatcher.dispatch(name, input, visitor)) as Reply<OutputOf<N>>;
  };
}

async function withLead(test: Awaited<ReturnType<typeof shop>>, pin = '4711') {
  const { people } = await test.ask('shop:save-person', { initials: 'RK', role: 'lead' });
  const personId = people[0]?.id ?? '';
  await test.ask('access:set-pin', { personId, pin });
  return personId;
}

describe('a person who signs in on devices', () => {
  async function signedIn() {
    const test = await shop();
    const personId = await withLead(test);
    const call = asDevice(test, await joined(test));
    const reply = await call('access:sign-in', { personId, pin: '4711' });
    expect(reply.ok).toBe(true);
    const told = async () =>
      (await test.ask('access:list', {})).audit
        .map(({ who, what }) => `${inEnglish(who)} ${inEnglish(what)}`)
        .join('; ');
    return { ...test, personId, call, told };
  }

  it('takes PIN and sign-in along when removed, and the list of who did what names them no more', async () => {
    const { ask, personId, call, told, program } = await signedIn();
    expect(await told()).toContain('RK');
    await ask('person:remove', { personId, revision: 1 });
    expect(await program.casebook.db.selectFrom('person_pins').selectAll().execute()).toEqual([]);
    expect(await call('access:me', {})).toMatchObject({ ok: true, value: { person: null } });
    expect(await told()).not.toContain('RK');
    expect(await told()).toContain('signed in as somebody removed');
  });

  it('stands in it in the language of the reader; sentences of earlier versions stay, under the new initials', async () => {
    const { ask, personId, program, told } = await signedIn();
    await program.casebook.db
      .insertInto('audit_entries')
      .values({
        id: program.newId(),
        at: '2026-03-02T08:00:00.000Z',
        who: 'Tablet “RK” (RK)',
        what: 'gave RK a PIN; “RK” stays',
      })
      .execute();
    expect(await told()).toContain('Tablet “RK” (RK) gave RK a PIN; “RK” stays');
    await ask('person:rename', { personId, initials: 'JX', revision: 1 });
    expect(await told()).toContain('Tablet “RK” (JX) gave JX a PIN; “RK” stays');
    const { audit } = await ask('access:list', {});
    speak('de', { 'audit.signedIn': '{initials} angemeldet', 'audit.pinGiven': 'PIN für {initials}' }, parse);
    expect(audit.map(({ what }) => wordsIn(what, '°C'))).toEqual(
      expect.arrayContaining(['JX angemeldet', 'PIN für JX', 'gave JX a PIN; “RK” stays']),
    );
    speak('en', {}, parse);
  });

  it('stands in it under the new initials when renamed, and goes on signed in', async () => {
    const { ask, personId, call, told } = await signedIn();
    await ask('person:rename', { personId, initials: 'JX', revision: 1 });
    expect(await told()).not.toContain('RK');
    expect(await told()).toContain('signed in as JX');
    expect(await call('access:me', {})).toMatchObject({ value: { person: { initials: 'JX' } } });
  });
});

describe('a device joins', () => {
  it('by a code that works once, however it is typed, and stands in the list with name and role', async () => {
    const test = await shop();
    const heard: Change[] = [];
    test.program.changes.follow((change) => heard.push(change));
    const { code, addresses } = await test.ask('access:invite', tablet);
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/);
    expect(addresses).toEqual([]);
    const typed = ` ${code.toLowerCase().replace('-', ' ').replaceAll('0', 'o').replaceAll('1', 'l')} `;
    const first = await test.doorkeeper.join(typed, '10.0.0.7');
    expect(first.ok).toBe(true);
    expect(heard).toEqual([{ topics: ['access'], caseId: null, revision: null }]);
    const again = await test.doorkeeper.join(code, '10.0.0.8');
    expect(again.ok ? '' : inEnglish(again.said)).toMatch(/used already/);
    const { devices, audit } = await test.ask('access:list', {});
    expect(devices).toMatchObject([{ ...tablet, printerId: null, signedIn: null }]);
    expect(audit.map(({ who, what }) => `${inEnglish(who)} ${inEnglish(what)}`)).toEqual([
      'Tablet at Heron joined as a device for operators',
      'At the station itself made a code for “Tablet at Heron” as operator',
    ]);
  });

  it('not with a code of ten minutes ago, nor one of another casebook', async () => {
    const test = await shop();
    const { code } = await test.ask('access:invite', tablet);
    test.pass(10);
    expect((await test.doorkeeper.join(code, '10.0.0.7')).ok).toBe(false);
    const other = await shop();
    const fresh = await test.ask('access:invite', tablet);
    expect((await other.doorkeeper.join(fresh.code, '10.0.0.7')).ok).toBe(false);
  });

  it('and guessing codes is slowed by the address it comes from, for the right code, too', async () => {
    const test = await shop();
    const { code } = await test.ask('access:invite', tablet);
    for (let guess = 0; guess < 8; guess++)
      expect((await test.doorkeeper.join(`AAAA-AAA${guess}`, '10.0.0.66')).ok).toBe(false);
    const slowed = await test.doorkeeper.join(code, '10.0.0.66');
    expect(slowed.ok ? '' : inEnglish(slowed.said)).toMatch(/Wait 15 seconds/);
    expect((await test.doorkeeper.join(code, '10.0.0.7')).ok).toBe(true);
  });

  it('at a printer that is there, under a name that no other device has', async () => {
    const test = await shop();
    await joined(test);
    const replies = [
      await test.dispatcher.call('access:invite', { ...tablet, label: 'TABLET AT HERON' }),
      await test.dispatcher.call('access:invite', {
        ...tablet,
        label: 'Another',
        printerId: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
      }),
    ];
    expect(replies.map((reply) => (reply.ok ? 'ok' : reply.error.code))).toEqual([
      'bad-request',
      'not-found',
    ]);
  });
});

describe('a device that has joined', () => {
  it('is known by its secret alone, may do what its role may, and nothing once it is shut out', async () => {
    const test = await shop();
    const device = await joined(test);
    const call = asDevice(test, device);
    expect(await call('bench:read', {})).toMatchObject({ ok: true });
    expect(await call('case:export', {})).toMatchObject({ ok: false, error: { code: 'forbidden' } });
    expect(await call('access:me', {})).toMatchObject({
      value: { kind: 'device', label: 'Tablet at Heron', role: 'operator', person: null },
    });
    for (const secret of ['', 'x', device.secret.slice(1), `${device.secret}x`])
      expect(await test.doorkeeper.recognise(device.deviceId, secret)).toBeNull();
    for (const id of ['', '01ARZ3NDEKTSV4RRFFQ69G5FAV', "' or 1=1 --"])
      expect(await test.doorkeeper.recognise(id, device.secret)).toBeNull();
    await test.ask('access:revoke-device', { deviceId: device.deviceId });
    await test.ask('access:revoke-device', { deviceId: device.deviceId });
    expect(await test.doorkeeper.recognise(device.deviceId, device.secret)).toBeNull();
    expect(
      await test.dispatcher.call('access:change-device', {
        ...tablet,
        deviceId: device.deviceId,
        role: 'lead',
      }),
    ).toMatchObject({ ok: false, error: { code: 'not-found' } });
    const { devices, audit } = await test.ask('access:list', {});
    expect(devices).toEqual([]);
    expect(audit.filter(({ what }) => inEnglish(what).startsWith('shut'))).toHaveLength(1);
  });

  it('has a new role at once', async () => {
    const test = await shop();
    const device = await joined(test);
    await test.ask('access:change-device', { ...tablet, deviceId: device.deviceId, role: 'lead' });
    expect(await asDevice(test, device)('case:export', {})).toMatchObject({ ok: true });
    const { audit } = await test.ask('access:list', {});
    const [newest] = audit.map(({ who, what }) => [inEnglish(who), inEnglish(what)]);
    expect(newest).toEqual(['Tablet at Heron', 'exported 0 cases']);
  });

  it('changes its secret; the old one goes on until the new one has come, and a minute', async () => {
    const test = await shop();
    const { deviceId, secret: first } = await joined(test);
    expect(await test.doorkeeper.rotate(deviceId, false)).toBeNull();
    test.pass(13 * 60);
    const second = (await test.doorkeeper.rotate(deviceId, false)) ?? '';
    expect(second).toHaveLength(43);
    // The answer with the new one may have been lost: no third one before the second was seen.
    test.pass(13 * 60);
    expect(await test.doorkeeper.rotate(deviceId, false)).toBeNull();
    expect(await test.doorkeeper.recognise(deviceId, first)).not.toBeNull();
    expect(await test.doorkeeper.recognise(deviceId, second)).not.toBeNull();
    expect(await test.doorkeeper.recognise(deviceId, first)).toBeNull();
    const third = (await test.doorkeeper.rotate(deviceId, true)) ?? '';
    expect(await test.doorkeeper.recognise(deviceId, third)).not.toBeNull();
    // Under way with the second while the third came.
    expect(await test.doorkeeper.recognise(deviceId, second)).not.toBeNull();
    test.pass(2);
    expect(await test.doorkeeper.recognise(deviceId, third)).not.toBeNull();
    expect(await test.doorkeeper.recognise(deviceId, second)).toBeNull();
  });

  it('stays shut out, or in, when an older backup is restored', async () => {
    const test = await shop({ file: `${temporaryFolder()}/casebook.sqlite` });
    const [inside, outside] = [await joined(test), await joined(test, { ...tablet, label: 'Old phone' })];
    const { name } = await test.ask('backup:make', {});
    test.pass(13 * 60);
    const newest = (await test.doorkeeper.rotate(inside.deviceId, false)) ?? '';
    await test.ask('access:revoke-device', { deviceId: outside.deviceId });
    await test.ask('backup:restore', { name });
    expect(await test.doorkeeper.recognise(outside.deviceId, outside.secret)).toBeNull();
    expect(await test.doorkeeper.recognise(inside.deviceId, newest)).not.toBeNull();
    const { audit } = await test.ask('access:list', {});
    expect(inEnglish(audit[0]?.what ?? [])).toBe(`restored the backup ${name}`);
    expect(audit.some(({ what }) => inEnglish(what) === 'shut “Old phone” out')).toBe(true);
  });
});

describe('a person signs in on a device', () => {
  it('with the PIN, has the rights of the own role there, and is signed out by hand, by a new PIN, or by leaving', async () => {
    const test = await shop();
    const personId = await withLead(test);
    const device = await joined(test);
    const call = asDevice(test, device);
    const me = await call('access:me', {});
    expect(me.ok && me.value.people).toEqual([{ id: personId, initials: 'RK' }]);
    const roleNow = async () => {
      const now = await call('access:me', {});
      return now.ok ? now.value.role : null;
    };
    expect(await call('access:sign-in', { personId, pin: '4712' })).toMatchObject({
      ok: false,
      error: { code: 'refused' },
    });
    expect(await call('access:sign-in', { personId, pin: '4711' })).toMatchObject({
      ok: true,
      value: { role: 'lead', person: { initials: 'RK' } },
    });
    expect(await call('case:export', {})).toMatchObject({ ok: true });
    expect(await call('access:sign-out', {})).toMatchObject({ value: { role: 'operator', person: null } });
    expect(await call('case:export', {})).toMatchObject({ error: { code: 'forbidden' } });

    await call('access:sign-in', { personId, pin: '4711' });
    await test.ask('access:set-pin', { personId, pin: '0815' });
    expect(await roleNow()).toBe('operator');
    await call('access:sign-in', { personId, pin: '0815' });
    expect(await roleNow()).toBe('lead');
    await test.ask('shop:save-person', {
      id: personId,
      revision: 1,
      initials: 'RK',
      role: 'lead',
      isRetired: true,
    });
    expect(await roleNow()).toBe('operator');
    const { audit } = await test.ask('access:list', {});
    expect(audit.map(({ who, what }) => `${inEnglish(who)} ${inEnglish(what)}`)).toEqual(
      expect.arrayContaining([
        'Tablet at Heron a wrong PIN for RK',
        'Tablet at Heron (RK) exported 0 cases',
        'Tablet at Heron (RK) signed out',
        'At the station itself gave RK a PIN',
        'At the station itself RK has left',
      ]),
    );
  });

  it('and is signed out after half an hour without writing anything', async () => {
    const test = await shop();
    const personId = await withLead(test);
    const device = await joined(test);
    const call = asDevice(test, device);
    await call('access:sign-in', { personId, pin: '4711' });
    test.pass(25);
    const visitor = await test.doorkeeper.recognise(device.deviceId, device.secret);
    if (visitor) await test.doorkeeper.touchPerson(visitor);
    test.pass(25);
    expect(await call('access:me', {})).toMatchObject({ value: { role: 'lead' } });
    test.pass(6);
    expect(await call('access:me', {})).toMatchObject({ value: { role: 'operator', person: null } });
  });

  it('guessing is slowed: the right PIN is refused, too, while the wait lasts; many guesses at once count as many', async () => {
    const test = await shop();
    const personId = await withLead(test);
    const call = asDevice(test, await joined(test));
    const guesses = await Promise.all(
      Array.from({ length: 30 }, (_, guess) =>
        call('access:sign-in', { personId, pin: String(1000 + guess) }),
      ),
    );
    const looked = guesses.filter((reply) => !reply.ok && reply.error.message === 'That is not the PIN.');
    expect(looked.length).toBe(4);
    const right = () => call('access:sign-in', { personId, pin: '4711' });
    expect(await right()).toMatchObject({
      ok: false,
      error: { code: 'refused', message: expect.stringMatching(/Wait 15 seconds/) },
    });
    test.pass(0.3);
    expect(await call('access:sign-in', { personId, pin: '1234' })).toMatchObject({ ok: false });
    test.pass(0.3);
    expect(await right()).toMatchObject({ error: { message: expect.stringMatching(/Too many wrong PINs/) } });
    test.pass(1);
    expect(await right()).toMatchObject({ ok: true });
  });

  it('a day of guessing at a PIN from many devices looks at less than a hundred', () => {
    const gate = pinDoors('device', 'person').at(-1)?.gate ?? { free: Infinity };
    let tried: Tried | undefined;
    let looked = 0;
    for (let nowMs = 0; nowMs < 24 * 3_600_000; nowMs += 1000)
      if (waitMs(tried, nowMs) === 0) {
        tried = triedOnceMore(gate, tried, nowMs);
        looked++;
      }
    expect(looked).toBeGreaterThan(20);
    expect(looked).toBeLessThan(100);
  });

  it('a restart forgets neither wrong PINs nor a code that waits; a restore brings no used code back', async () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite');
    const before = await shop({ file });
    const personId = await withLead(before);
    const device = await joined(before);
    for (let guess = 0; guess < 4; guess++)
      await asDevice(before, device)('access:sign-in', { personId, pin: `100${guess}` });
    const { code } = await before.ask('access:invite', { ...tablet, label: 'Second' });
    const { name } = await before.ask('backup:make', {});
    await before.program.casebook.close();

    const after = await shop({ file });
    const right = () => asDevice(after, device)('access:sign-in', { personId, pin: '4711' });
    expect(await right()).toMatchObject({ error: { message: expect.stringMatching(/Wait 15 seconds/) } });
    expect((await after.doorkeeper.join(code, '10.0.0.7')).ok).toBe(true);
    await after.ask('backup:restore', { name });
    expect(await right()).toMatchObject({ error: { message: expect.stringMatching(/Wait 15 seconds/) } });
    expect((await after.doorkeeper.join(code, '10.0.0.7')).ok).toBe(false);
    after.pass(0.3);
    expect(await right()).toMatchObject({ ok: true });
  });

  it('nobody signs in at the station itself, or as somebody without a PIN', async () => {
    const test = await shop();
    const { people } = await test.ask('shop:save-person', { initials: 'KB', role: 'lead' });
    const personId = people[0]?.id ?? '';
    expect(await test.dispatcher.call('access:sign-in', { personId, pin: '4711' })).toMatchObject({
      error: { code: 'refused' },
    });
    const call = asDevice(test, await joined(test));
    expect(await call('access:sign-in', { personId, pin: '4711' })).toMatchObject({
      error: { code: 'refused', message: 'That is not the PIN.' },
    });
  });
});

describe('a PIN', () => {
  it('is kept by scrypt with a salt of its own, and nothing else passes for it', async () => {
    const [one, other] = [await pinHash('4711'), await pinHash('4711')];
    expect(one).not.toBe(other);
    expect(one).toMatch(/^scrypt\$15\$[\w-]{22}\$[\w-]{43}$/);
    expect([await isPin('4711', one), await isPin('4711', other)]).toEqual([true, true]);
    expect(await isPin('4712', one)).toBe(false);
    for (const kept of ['', '4711', 'scrypt$99$x$y', 'scrypt$15$$', one.slice(0, -2)])
      expect(await isPin('4711', kept)).toBe(false);
  });
});
