import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { CALL_NAMES } from '../../src-core/contract/call-names.ts';
import { callRoles } from '../../src-core/contract/call-roles.ts';
import { fileCallAddress } from '../../src-core/contract/file-calls.ts';
import type { Role } from '../../src-core/contract/roles.ts';
import { readFirstPage } from '../../src-main/bootstrap/first-page.ts';
import { Doorkeeper } from '../../src-main/operations/access/doorkeeper.ts';
import { openDoor } from '../../src-main/station/door.ts';
import type { Inside } from '../../src-main/station/door-settings.ts';
import { startStation } from '../../src-main/station/station.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { jpeg } from '../photos/jpeg.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { madeCertificate } from './made-certificate.ts';
import { cookieOf, rawRequest, type RawReply } from './raw-request.ts';

const TOKEN = 'x'.repeat(43);
const NAME = 'shop.test';

/** A station with a door to the network, asked for as shop.test, and hands to knock at it. */
async function openToTheNetwork(isHttps = false) {
  const rendererFolder = temporaryFolder();
  writeFileSync(path.join(rendererFolder, 'index.html'), '<html lang="en"><p>the screens</p></html>');
  writeFileSync(path.join(rendererFolder, 'manifest.webmanifest'), '{}');
  const test = await programInMemory();
  const doorkeeper = new Doorkeeper(test.program);
  const made = isHttps ? madeCertificate(NAME) : null;
  const inside: Inside = {
    rendererFolder,
    dispatcher: test.dispatcher,
    readPage: (visitor) =>
      readFirstPage(rendererFolder, undefined, visitor.kind === 'device' ? visitor.printerId : null),
    readPhoto: (hash) => test.program.casebook.photos.read(hash),
    followChanges: test.program.changes.follow,
    doorkeeper: () => doorkeeper,
  };
  const station = await startStation(inside, { port: 0, token: TOKEN });
  onTestFinished(() => station.close());
  const network = await openDoor(
    {
      address: '127.0.0.1',
      port: 0,
      certificate: made && { cert: made.cert, key: made.key },
      names: () => [NAME],
      token: null,
    },
    inside,
  );
  onTestFinished(() => network.close());
  const { port } = network;
  const tls = made && { tls: { ca: made.cert, servername: NAME } };
  const origin = `${isHttps ? 'https' : 'http'}://${NAME}:${port}`;
  const knock = (
    asked: string,
    { headers = {}, ...options }: Parameters<typeof rawRequest>[2] = {},
  ): Promise<RawReply> =>
    rawRequest(port, asked, { headers: { host: `${NAME}:${port}`, ...headers }, ...options, ...tls });
  const call = (name: string, input: unknown, headers: Readonly<Record<string, string>> = {}) =>
    knock(`/api/${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin, ...headers },
      body: JSON.stringify(input),
    });
  const join = (code: string, headers: Readonly<Record<string, string>> = {}) =>
    knock('/join', {
      method: 'POST',
      headers: { 'content-type': 'application/x-www-form-urlencoded', origin, ...headers },
      body: new URLSearchParams({ code }).toString(),
    });
  const sendPhoto = (headers: Readonly<Record<string, string>> = {}) =>
    knock(`/${fileCallAddress('photo:keep', {})}`, {
      method: 'POST',
      headers: { 'content-type': 'image/jpeg', origin, ...headers },
      body: jpeg(),
    });
  let made_ = 0;
  const device = async (role: Role, printerId: string | null = null) => {
    const { code } = await test.ask('access:invite', { label: `Device ${++made_}`, role, printerId });
    return cookieOf(await join(code));
  };
  return { ...test, station, network, port, origin, knock, call, sendPhoto, join, device };
}

const errorOf = ({ text }: RawReply): string | undefined =>
  (JSON.parse(text) as { error?: { code: string } }).error?.code;

describe('at the door to the network', () => {
  it('nobody comes in without a device: no call, no photo, no screen, no stream, nor with the token of the machine', async () => {
    const { call, knock, program, port, sendPhoto } = await openToTheNetwork();
    const photo = await program.casebook.photos.keep(jpeg());
    const session = `beadwright_session_${port}=${TOKEN}.guest`;
    for (const headers of [{}, { cookie: session }]) {
      for (const name of CALL_NAMES) {
        const reply = await call(name, {}, headers);
        expect([name, reply.status, errorOf(reply)]).toEqual([name, 403, 'forbidden']);
      }
      expect((await sendPhoto(headers)).status).toBe(403);
      for (const asked of [
        `/photos/${photo}.jpg`,
        '/changes',
        '/index.html',
        '/assets/x.js',
        '/../package.json',
      ])
        expect((await knock(asked, { headers })).status, asked).toBe(403);
      for (const asked of ['/', `/?token=${TOKEN}`]) {
        const front = await knock(asked, { headers });
        expect([front.status, front.headers['set-cookie']]).toEqual([401, undefined]);
        expect(front.text).not.toContain('the screens');
      }
    }
  });

  it('a device that has joined comes in, and opens with the page of its printer', async () => {
    const { ask, device, knock, call } = await openToTheNetwork();
    const { printers } = await ask('shop:save-printer', { label: 'Heron', conditions: {}, printHours: 1 });
    const printerId = printers[0]?.id ?? '';
    const cookie = await device('operator', printerId);
    expect(cookie).toMatch(/^beadwright_device_\d+=[0-9A-Z]{26}\.[\w-]{43}$/);
    const page = await knock('/', { headers: { cookie } });
    expect(page.text).toMatch(new RegExp(`<html [^>]*data-home="printer/${printerId}".*the screens`, 's'));
    expect(JSON.parse((await call('access:me', {}, { cookie })).text)).toMatchObject({
      ok: true,
      value: { kind: 'device', role: 'operator' },
    });
  });

  it.each(['operator', 'lead', 'trainer'] as const)(
    'a device for %ss may call what the table says, and nothing else over HTTP either',
    async (role) => {
      const { device, call } = await openToTheNetwork();
      const cookie = await device(role);
      for (const name of CALL_NAMES) {
        const code = errorOf(await call(name, { surprise: 1 }, { cookie }));
        const mayCall = (callRoles[name] as readonly Role[]).includes(role);
        expect([name, code]).toEqual([name, mayCall ? 'bad-request' : 'forbidden']);
      }
    },
  );

  it('a revoked device is out at once, with the stream that it has open', async () => {
    const { ask, device, call, knock, sendPhoto } = await openToTheNetwork();
    const cookie = await device('lead');
    const { promise: begun, resolve } = Promise.withResolvers<true>();
    const stream = knock('/changes', { headers: { cookie }, onBegun: () => resolve(true) });
    await begun;
    expect((await call('bench:read', {}, { cookie })).status).toBe(200);
    const { devices } = await ask('access:list', {});
    await ask('access:revoke-device', { deviceId: devices[0]?.id ?? '' });
    for (const name of CALL_NAMES) {
      const reply = await call(name, {}, { cookie });
      expect([name, reply.status, errorOf(reply)]).toEqual([name, 403, 'forbidden']);
    }
    expect((await sendPhoto({ cookie })).status).toBe(403);
    expect((await knock('/', { headers: { cookie } })).status).toBe(401);
    expect((await stream).text).toContain('event: hello');
  });

  it('a join code that was used, guessed or sent from another site lets nobody in; looking at it uses nothing up', async () => {
    const { ask, join, knock } = await openToTheNetwork();
    const { code } = await ask('access:invite', { label: 'Tablet', role: 'lead' });
    const looked = await knock(`/join?code=${code}`);
    expect(looked.text).toContain(`value="${code}"`);
    expect((await knock('/join?code=%22%3E%3Cscript%3E')).text).not.toContain('<script>');
    expect((await join(code, { origin: 'http://evil.example' })).status).toBe(403);
    expect((await join(code, { origin: 'null' })).status).toBe(403);
    expect((await join(code)).status).toBe(303);
    const replayed = await join(code);
    expect([replayed.status, replayed.headers['set-cookie']]).toEqual([403, undefined]);
    expect(replayed.text).toMatch(/used already/);
    const { code: other } = await ask('access:invite', { label: 'Second', role: 'lead' });
    for (let guess = 0; guess < 10; guess++) expect((await join(`BBBB-BBB${guess}`)).status).toBe(403);
    const slowed = await join(other);
    expect([slowed.status, slowed.headers['set-cookie']]).toEqual([403, undefined]);
    expect(slowed.text).toMatch(/Wait \d+ seconds/);
  });

  it('another origin, another host name, and a name that only begins like ours are refused, cookie or not', async () => {
    const { device, call, knock, origin, port, sendPhoto } = await openToTheNetwork();
    const cookie = await device('lead');
    for (const other of ['http://evil.example', `http://${NAME}`, `https://${NAME}:${port}`, 'null', ''])
      expect((await call('bench:read', {}, { cookie, origin: other })).status, other).toBe(403);
    for (const host of [
      `evil.example:${port}`,
      `${NAME}:${port}.evil.example`,
      `${NAME}.evil.example:${port}`,
      `127.0.0.1:${port}`,
      `localhost:${port}`,
      NAME,
    ]) {
      expect((await call('bench:read', {}, { cookie, host, origin: `http://${host}` })).status, host).toBe(
        403,
      );
      expect((await knock('/', { headers: { cookie, host } })).status, host).toBe(403);
      expect((await knock('/join', { headers: { host } })).status, host).toBe(403);
    }
    const elsewhere = { cookie, origin: 'http://evil.example' };
    const rebound = { cookie, host: `evil.example:${port}`, origin: `http://evil.example:${port}` };
    for (const headers of [elsewhere, rebound]) {
      for (const name of CALL_NAMES)
        expect([name, (await call(name, {}, headers)).status]).toEqual([name, 403]);
      expect((await sendPhoto(headers)).status).toBe(403);
    }
    expect((await sendPhoto({ cookie })).status).toBe(200);
    const site = { cookie, origin, 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'cors' };
    expect((await call('bench:read', {}, site)).status).toBe(403);
    expect((await call('bench:read', {}, { cookie })).headers['access-control-allow-origin']).toBeUndefined();
  });

  it('what anybody may ask for is that very path: no other comes in by way of it', async () => {
    const { knock } = await openToTheNetwork();
    for (const asked of ['/health', '/ready', '/join', '/plain-page.css', '/manifest.webmanifest'])
      expect((await knock(asked)).status, asked).toBe(200);
    for (const asked of [
      '/join/../api/bench:read',
      '/join/../index.html',
      '/health/../changes',
      '/%6aoin',
      '/join%2f..%2findex.html',
      '//join',
      '/join;x',
      '/JOIN',
    ])
      expect((await knock(asked)).status, asked).toBe(403);
    expect(JSON.parse((await knock('/health')).text)).toEqual({ isHealthy: true });
    expect(JSON.parse((await knock('/ready')).text)).toEqual({ isReady: true });
  });

  it('a page uploaded as a picture, or a picture that says it is huge, is no photo, as text either (as bytes: files.test.ts)', async () => {
    const { device, call, knock } = await openToTheNetwork();
    const cookie = await device('operator');
    const page = Buffer.from('<!doctype html><script>alert(1)</script>');
    const dressed = Buffer.concat([jpeg().subarray(0, 20), page]);
    for (const bytes of [page, dressed, jpeg(65_500, 65_500), Buffer.concat([Buffer.from('GIF89a'), page])]) {
      const reply = await call('photo:keep', { base64: bytes.toString('base64') }, { cookie });
      expect(JSON.parse(reply.text)).toMatchObject({ ok: false });
    }
    const kept = JSON.parse(
      (await call('photo:keep', { base64: jpeg().toString('base64') }, { cookie })).text,
    ) as {
      value: { photo: string };
    };
    const shown = await knock(`/photos/${kept.value.photo}.jpg`, { headers: { cookie } });
    expect(shown.headers['content-type']).toBe('image/jpeg');
    expect(shown.headers['x-content-type-options']).toBe('nosniff');
    expect(shown.headers['content-security-policy']).toContain("default-src 'none'");
  });

  it('PINs are not guessed: after a few the door waits, and the rights stay what they were', async () => {
    const { ask, device, call } = await openToTheNetwork();
    const { people } = await ask('shop:save-person', { initials: 'RK', role: 'lead' });
    const personId = people[0]?.id ?? '';
    await ask('access:set-pin', { personId, pin: '4711' });
    const cookie = await device('operator');
    for (let pin = 4700; pin < 4711; pin++)
      await call('access:sign-in', { personId, pin: String(pin) }, { cookie });
    const right = await call('access:sign-in', { personId, pin: '4711' }, { cookie });
    expect(JSON.parse(right.text)).toMatchObject({ ok: false, error: { code: 'refused' } });
    expect(errorOf(await call('case:export', {}, { cookie }))).toBe('forbidden');
  });

  it('signing in gives the device a new secret; the old one is worth nothing after a minute', async () => {
    const { ask, device, call, pass } = await openToTheNetwork();
    const { people } = await ask('shop:save-person', { initials: 'RK', role: 'lead' });
    const personId = people[0]?.id ?? '';
    await ask('access:set-pin', { personId, pin: '4711' });
    const before = await device('operator');
    const signedIn = await call('access:sign-in', { personId, pin: '4711' }, { cookie: before });
    const after = cookieOf(signedIn);
    expect(after).not.toBe('');
    expect(after).not.toBe(before);
    expect((await call('case:export', {}, { cookie: after })).status).toBe(200);
    pass(2);
    expect((await call('bench:read', {}, { cookie: after })).status).toBe(200);
    expect((await call('bench:read', {}, { cookie: before })).status).toBe(403);
  });

  it('while the casebook is away a device is told so, not that it is shut out; a stranger learns nothing', async () => {
    const { device, call, knock, program } = await openToTheNetwork();
    const cookie = await device('operator');
    await program.casebook.close();
    const reply = await call('bench:read', {}, { cookie });
    expect([reply.status, errorOf(reply)]).toEqual([503, 'casebook-unavailable']);
    expect((await knock('/', { headers: { cookie } })).status).toBe(503);
    expect((await knock('/ready')).status).toBe(503);
    expect((await knock('/health')).status).toBe(200);
    expect((await knock('/')).status).toBe(401);
    expect((await call('bench:read', {})).status).toBe(403);
    await program.casebook.open();
    expect((await knock('/ready')).status).toBe(200);
  });

  it('more than a code and its name is not read from a stranger', async () => {
    const { join } = await openToTheNetwork();
    expect((await join('A'.repeat(5000))).status).toBe(413);
  });
});

describe('over HTTPS', () => {
  it('cookies are for HTTPS alone, for no script, and for no other site', async () => {
    const { ask, join, call, port, network } = await openToTheNetwork(true);
    expect(network.scheme).toBe('https');
    const { code } = await ask('access:invite', { label: 'Tablet', role: 'operator' });
    const joined = await join(code);
    expect(joined.headers['set-cookie']?.[0]).toMatch(/; HttpOnly; Secure; SameSite=Strict$/);
    expect((await call('bench:read', {}, { cookie: cookieOf(joined) })).status).toBe(200);
    const plain = { cookie: cookieOf(joined), origin: `http://${NAME}:${port}` };
    expect((await call('bench:read', {}, plain)).status).toBe(403);
  });
});

describe('the door of this machine', () => {
  it('is as it was, and a device may join there, too', async () => {
    const { ask, station } = await openToTheNetwork();
    const own = `http://127.0.0.1:${station.port}`;
    const entry = await rawRequest(station.port, `/?token=${TOKEN}`, {
      headers: { host: `127.0.0.1:${station.port}` },
    });
    expect(cookieOf(entry)).toContain(`beadwright_session_${station.port}=`);
    const { code } = await ask('access:invite', { label: 'Tablet', role: 'operator' });
    const joined = await rawRequest(station.port, '/join', {
      method: 'POST',
      headers: {
        host: `127.0.0.1:${station.port}`,
        origin: own,
        'content-type': 'application/x-www-form-urlencoded',
      },
      body: `code=${code}`,
    });
    expect(joined.status).toBe(303);
    const call = (cookie: string) =>
      rawRequest(station.port, '/api/case:export', {
        method: 'POST',
        headers: {
          host: `127.0.0.1:${station.port}`,
          origin: own,
          cookie,
          'content-type': 'application/json',
        },
        body: '{}',
      });
    expect(errorOf(await call(cookieOf(joined)))).toBe('forbidden');
    expect(errorOf(await call(cookieOf(entry)))).toBeUndefined();
  });
});
