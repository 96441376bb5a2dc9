import { inEnglish } from '../../src-core/words/in-english.ts';
import { X509Certificate } from 'node:crypto';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { Doorkeeper } from '../../src-main/operations/access/doorkeeper.ts';
import { dispatchAtDoor } from '../../src-main/station/device-dispatch.ts';
import { NetworkDoor, type NetworkPlan } from '../../src-main/station/network-door.ts';
import { startStation } from '../../src-main/station/station.ts';
import type { Inside } from '../../src-main/station/door-settings.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { cookieOf, rawRequest } from './raw-request.ts';

const NAME = 'shop.test';
const DAY_MS = 86_400_000;

interface Around {
  readonly plan?: Partial<NetworkPlan>;
  readonly isSaidAtStart?: boolean;
  readonly certificateFolder?: string;
  /** How far its clock is behind at first. */
  readonly daysAgo?: number;
}

/** A program with a door to the network that is still closed. */
async function closedDoor({ plan, isSaidAtStart = false, certificateFolder, daysAgo = 0 }: Around = {}) {
  const rendererFolder = temporaryFolder();
  writeFileSync(path.join(rendererFolder, 'index.html'), '<p>the screens</p>');
  const test = await programInMemory();
  const doorkeeper = new Doorkeeper(test.program);
  const inside: Inside = {
    rendererFolder,
    dispatcher: { dispatch: dispatchAtDoor(test.dispatcher, doorkeeper) },
    readPage: () => Promise.resolve('<p>the screens</p>'),
    readPhoto: (hash) => test.program.casebook.photos.read(hash),
    followChanges: test.program.changes.follow,
    doorkeeper: () => doorkeeper,
  };
  const remembered: boolean[] = [];
  const warned: string[] = [];
  let nowMs = Date.now() - daysAgo * DAY_MS;
  const door = new NetworkDoor({
    plan: {
      address: '127.0.0.1',
      port: 0,
      rootPagePort: 0,
      named: [NAME],
      security: { kind: 'own-authority' },
      ...plan,
    },
    isSaidAtStart,
    inside,
    certificateFolder: certificateFolder ?? path.join(temporaryFolder(), 'certificates'),
    remember: (isOpen) => remembered.push(isOpen),
    warn: (words) => warned.push(words),
    now: () => new Date(nowMs),
    answeringName: () => Promise.resolve(null),
  });
  onTestFinished(() => door.close());
  test.program.desk.network = door;
  return {
    ...test,
    inside,
    door,
    doorkeeper,
    remembered,
    warned,
    passDays: (days: number) => (nowMs += days * DAY_MS),
  };
}
type Door = Awaited<ReturnType<typeof closedDoor>>;

const rootPagePort = ({ door }: Door) => Number(new URL(door.view.root?.page ?? '').port);
const onRootPage = (test: Door, asked: string, options: Parameters<typeof rawRequest>[2] = {}) =>
  rawRequest(rootPagePort(test), asked, options);

/** The root as the page hands it out. */
async function rootOf(test: Door): Promise<X509Certificate> {
  const page = await fetch(new URL('/beadwright-root.crt', `http://127.0.0.1:${rootPagePort(test)}`));
  expect(page.headers.get('content-type')).toBe('application/x-x509-ca-cert');
  return new X509Certificate(Buffer.from(await page.arrayBuffer()));
}

/** Knocks at the door as a device does that trusts this root alone. */
function knock(
  { door }: Door,
  ca: X509Certificate,
  asked: string,
  { headers = {}, ...options }: Parameters<typeof rawRequest>[2] = {},
) {
  return rawRequest(door.port ?? 0, asked, {
    ...options,
    headers: { host: `${NAME}:${door.port ?? 0}`, ...headers },
    tls: { ca: Buffer.from(ca.toString()), servername: NAME },
  });
}

async function joined(test: Door, ca: X509Certificate, role: 'operator' | 'lead'): Promise<string> {
  const { code } = await test.ask('access:invite', { label: `Device for ${role}s`, role });
  const reply = await knock(test, ca, '/join', {
    method: 'POST',
    headers: {
      'content-type': 'application/x-www-form-urlencoded',
      origin: `https://${NAME}:${test.door.port ?? 0}`,
    },
    body: new URLSearchParams({ code }).toString(),
  });
  return cookieOf(reply);
}

describe('the switch in the settings', () => {
  it('is off at first; on, a device comes in that trusts the station’s root alone; off again, nobody does', async () => {
    const test = await closedDoor();
    expect(await test.ask('network:read', {})).toEqual({
      isOpen: false,
      isSaidAtStart: false,
      security: 'own-authority',
      addresses: [],
      root: null,
      problem: null,
    });
    expect((await test.ask('access:list', {})).addresses).toEqual([]);
    const on = await test.ask('network:switch', { isOpen: true });
    const port = test.door.port ?? 0;
    expect(on).toMatchObject({ isOpen: true, problem: null });
    expect(on.addresses).toEqual([`https://${NAME}:${port}`, `https://127.0.0.1:${port}`]);
    expect((await test.ask('access:list', {})).addresses).toEqual(on.addresses);
    const ca = await rootOf(test);
    expect(ca.fingerprint256).toBe(on.root?.fingerprint);
    const cookie = await joined(test, ca, 'operator');
    expect((await knock(test, ca, '/', { headers: { cookie } })).text).toContain('the screens');
    const stranger = new X509Certificate((await import('node:tls')).rootCertificates[0] ?? '');
    await expect(knock(test, stranger, '/')).rejects.toThrow(/certificate|issuer/i);

    expect(await test.ask('network:switch', { isOpen: false })).toMatchObject({
      isOpen: false,
      addresses: [],
    });
    await test.door.close();
    await expect(rawRequest(port, '/')).rejects.toThrow(/ECONNREFUSED/);
    expect(test.remembered).toEqual([true, false]);
    const { audit } = await test.ask('access:list', {});
    expect(
      audit.map(({ what }) => inEnglish(what)).filter((what) => what.includes('tablets and phones')),
    ).toEqual(['closed Beadwright to tablets and phones', 'opened Beadwright to tablets and phones']);
    // Done twice, and at once: it is as it was said last.
    await Promise.all([test.door.switchTo(true), test.door.switchTo(true)]);
    await test.door.switchTo(false);
    await test.door.switchTo(true);
    expect(test.door.view.isOpen).toBe(true);
  });

  it('switched off while it is still opening leaves nothing behind that looks after it', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    onTestFinished(() => void vi.useRealTimers());
    const test = await closedDoor();
    const before = vi.getTimerCount();
    const opening = test.door.open();
    await test.door.close();
    await opening;
    expect([test.door.port, vi.getTimerCount()]).toEqual([null, before]);
  });

  it('is the lead’s: a device for operators is refused; the lead’s own device hears that it was closed before it is cut off', async () => {
    const test = await closedDoor();
    await test.door.open();
    const ca = await rootOf(test);
    const off = (cookie: string) =>
      knock(test, ca, '/api/network:switch', {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          origin: `https://${NAME}:${test.door.port ?? 0}`,
          cookie,
        },
        body: JSON.stringify({ isOpen: false }),
      });
    expect((await off(await joined(test, ca, 'operator'))).text).toContain('This is for the lead');
    expect(test.door.view.isOpen).toBe(true);
    const reply = await off(await joined(test, ca, 'lead'));
    expect(JSON.parse(reply.text)).toMatchObject({ ok: true, value: { isOpen: false } });
    await test.door.close();
    expect(test.door.port).toBeNull();
  });

  it('does nothing where it was said at the start, and says so', async () => {
    const test = await closedDoor({ isSaidAtStart: true });
    await test.door.open();
    const refused = await test.dispatcher.call('network:switch', { isOpen: false });
    expect(refused).toMatchObject({ ok: false, error: { code: 'refused' } });
    expect(test.door.view).toMatchObject({ isOpen: true, isSaidAtStart: true });
  });

  it('says why it could not be opened, and stays off', async () => {
    const taken = net.createServer().listen(0, '127.0.0.1');
    onTestFinished(() => void taken.close());
    await new Promise((resolve) => taken.once('listening', resolve));
    const { port } = taken.address() as { port: number };
    const test = await closedDoor({ plan: { port } });
    const words = new RegExp(`port ${port} is taken by another program`);
    const refused = await test.dispatcher.call('network:switch', { isOpen: true });
    expect(refused).toMatchObject({ ok: false, error: { message: expect.stringMatching(words) } });
    expect(test.door.view.isOpen).toBe(false);
    expect(inEnglish(test.door.view.problem ?? [])).toMatch(words);
    expect(test.remembered).toEqual([]);
  });
});

describe('the page that hands out the root', () => {
  it('stands alone over plain HTTP: nothing of the program is behind it, whatever is asked', async () => {
    const test = await closedDoor();
    await test.door.open();
    const cookie = await joined(test, await rootOf(test), 'lead');
    const page = await onRootPage(test, '/');
    expect(page.status).toBe(200);
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.text).toContain((test.door.view.root?.fingerprint ?? '?').replaceAll(':', ' '));
    expect(page.text).toContain(`href="https://${NAME}:${test.door.port ?? 0}/join"`);
    // Neither the word of a brand nor a script.
    expect(page.text).not.toMatch(/<script/);
    for (const asked of [
      '/join',
      '/api/bench:read',
      '/index.html',
      '/photos/x.jpg',
      '/changes',
      '/health',
      '/root.pem',
      '/../root.pem',
      '/beadwright-root.crt/../root.pem',
    ])
      expect([asked, (await onRootPage(test, asked, { headers: { cookie } })).status]).toEqual([asked, 404]);
    const posted = await onRootPage(test, '/', { method: 'POST', body: 'code=1', headers: { cookie } });
    expect([posted.status, posted.headers['set-cookie']]).toEqual([405, undefined]);
    const handedOut = await rootOf(test);
    expect(handedOut.toString()).not.toContain('PRIVATE');
    expect(handedOut.ca).toBe(true);
  });

  it('that finds its port taken keeps nobody out, and is said', async () => {
    const taken = net.createServer().listen(0, '127.0.0.1');
    onTestFinished(() => void taken.close());
    await new Promise((resolve) => taken.once('listening', resolve));
    const test = await closedDoor({ plan: { rootPagePort: (taken.address() as { port: number }).port } });
    await test.door.open();
    expect(test.door.view).toMatchObject({ isOpen: true, root: { page: null } });
    expect(inEnglish(test.door.view.problem ?? [])).toMatch(
      /page that hands out the root certificate is not there: port \d+ is taken/,
    );
    expect(test.warned).toHaveLength(1);
  });

  it('is not there without an own authority', async () => {
    const test = await closedDoor({ plan: { security: { kind: 'plain-http' } } });
    await test.door.open();
    expect(test.door.view).toMatchObject({ root: null, security: 'plain-http' });
    expect(test.door.view.addresses[0]).toBe(`http://${NAME}:${test.door.port ?? 0}`);
  });
});

describe('the station’s own certificate', () => {
  it('is renewed while the station runs, under the root that devices have', async () => {
    const test = await closedDoor({ daysAgo: 61 });
    await test.door.open();
    const ca = await rootOf(test);
    const shown = async () => (await knock(test, ca, '/health')).certificate;
    const first = await shown();
    await test.door.lookAfter();
    expect(await shown()).toBe(first);
    test.passDays(61);
    await test.door.lookAfter();
    expect(await shown()).not.toBe(first);
    expect((await rootOf(test)).fingerprint256).toBe(ca.fingerprint256);
  });

  it('stays the same over a restart; a name that its root may not vouch for, and a root in its last year, are said', async () => {
    const certificateFolder = path.join(temporaryFolder(), 'certificates');
    const before = await closedDoor({ certificateFolder });
    await before.door.open();
    const ca = await rootOf(before);
    await before.door.close();
    const after = await closedDoor({ certificateFolder, plan: { named: [NAME, 'annex.test'] } });
    await after.door.open();
    expect((await knock(after, ca, '/health')).status).toBe(200);
    expect(inEnglish(after.door.view.problem ?? [])).toMatch(/was made before annex\.test was named/);
    expect(after.door.view.addresses.join(' ')).not.toContain('annex');
    after.passDays(9 * 365 + 30);
    expect(inEnglish(after.door.view.problem ?? [])).toMatch(/root certificate lapses on \d+ \w+ \d{4}\./);
  });

  it('whose root is spoilt or taken away while the station runs is handed out as before; what is the matter is said until it is put back', async () => {
    const certificateFolder = path.join(temporaryFolder(), 'certificates');
    const test = await closedDoor({ certificateFolder });
    await test.door.open();
    const { root } = test.door.view;
    const file = path.join(certificateFolder, 'root.pem');
    const kept = readFileSync(file);
    writeFileSync(file, 'spoilt');
    expect(test.door.view.root).toEqual(root);
    expect((await onRootPage(test, '/')).status).toBe(200);
    await test.door.lookAfter();
    expect(inEnglish(test.door.view.problem ?? [])).toMatch(/could not be renewed: .*is damaged/);
    rmSync(file);
    expect(test.door.view.root).toEqual(root);
    expect((await rootOf(test)).fingerprint256).toBe(root?.fingerprint);
    writeFileSync(file, kept);
    await test.door.lookAfter();
    expect(test.door.view).toMatchObject({ root, problem: null });
  });

  it('that is damaged keeps the door shut, with what to do', async () => {
    const certificateFolder = temporaryFolder();
    writeFileSync(path.join(certificateFolder, 'root.pem'), 'spoilt');
    const test = await closedDoor({ certificateFolder });
    await expect(test.door.open()).rejects.toThrow(
      /certificate authority is damaged: .*root\.pem .*remove it/,
    );
    // The machine's own door is as it was.
    const station = await startStation(test.inside, { port: 0, token: 'x'.repeat(43) });
    onTestFinished(() => station.close());
    expect((await fetch(station.address, { redirect: 'manual' })).status).toBe(303);
  });
});
