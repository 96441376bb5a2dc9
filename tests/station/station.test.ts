import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import net from 'node:net';
import path from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { displayOf, readFirstPage } from '../../src-main/bootstrap/first-page.ts';
import { freePort } from '../../src-main/station/free-port.ts';
import { readStationSettings, writeStationSettings } from '../../src-main/station/station-settings.ts';
import { guideTag } from '../../src-main/station/kept-guide.ts';
import { startStation, type Station } from '../../src-main/station/station.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { jpeg } from '../photos/jpeg.ts';
import { temporaryFolder } from '../temporary-folder.ts';

const TOKEN = 'x'.repeat(43);

async function started(port = 0): Promise<Station & { readonly origin: string; readonly photo: string }> {
  const rendererFolder = temporaryFolder();
  writeFileSync(path.join(rendererFolder, 'index.html'), '<html lang="en"><p>the screens</p></html>');
  const { dispatcher, program } = await programInMemory();
  const readPage = async () => readFirstPage(rendererFolder, await displayOf(program.casebook));
  const readPhoto = (hash: string) => program.casebook.photos.read(hash);
  const station = await startStation(
    {
      rendererFolder,
      dispatcher,
      readPage,
      readPhoto,
      followChanges: program.changes.follow,
      guideTag: () => guideTag(program),
    },
    { port, token: TOKEN },
  );
  onTestFinished(() => station.close());
  const photo = await program.casebook.photos.keep(jpeg());
  return { ...station, origin: `http://127.0.0.1:${station.port}`, photo };
}

/** Comes in by the printed address, as a browser does; returns the cookie. */
async function enter(station: Station): Promise<string> {
  const entry = await fetch(station.address, { redirect: 'manual' });
  expect(entry.headers.get('location')).toBe('/');
  return entry.headers.getSetCookie()[0]?.split(';')[0] ?? '';
}

const call = (origin: string, cookie: string, name = 'host:info') =>
  fetch(`${origin}/api/${name}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin, cookie },
    body: '{}',
  });

describe('the guide', () => {
  it('comes once, compressed; a browser that has it is told so in a line; nobody else gets it', async () => {
    const station = await started();
    const address = `${station.origin}/guide`;
    expect((await fetch(address)).status).toBe(403);
    const cookie = await enter(station);
    const first = await fetch(address, { headers: { cookie } });
    expect(first.headers.get('content-encoding')).toBe('gzip');
    expect(first.headers.get('cache-control')).toBe('private, no-cache');
    const asked = await call(station.origin, cookie, 'guide:read');
    expect(await first.json()).toEqual(await asked.json());
    const tag = first.headers.get('etag') ?? '';
    const again = await fetch(address, { headers: { cookie, 'if-none-match': tag } });
    expect([again.status, await again.text()]).toEqual([304, '']);
    const other = await fetch(address, { headers: { cookie, 'if-none-match': '"another"' } });
    expect(other.status).toBe(200);
    // A program that has just been started says the same before it has made the guide.
    const anew = await started();
    const kept = await fetch(`${anew.origin}/guide`, {
      headers: { cookie: await enter(anew), 'if-none-match': tag },
    });
    expect(kept.status).toBe(304);
    const plain = await fetch(address, { headers: { cookie, 'accept-encoding': 'identity' } });
    expect(plain.headers.get('content-encoding')).toBeNull();
  });
});

describe('attack 7: getting in', () => {
  it('needs the printed address once in each browser; a cookie is handed to nobody else', async () => {
    const station = await started();
    const stranger = await fetch(`${station.origin}/`);
    expect(stranger.status).toBe(401);
    expect(stranger.headers.getSetCookie()).toEqual([]);
    expect(await stranger.text()).toMatch(/whole address that Beadwright printed/);
    expect((await call(station.origin, '')).status).toBe(403);
    const wrong = await fetch(`${station.origin}/?token=${'y'.repeat(43)}`, { redirect: 'manual' });
    expect([wrong.status, wrong.headers.getSetCookie()]).toEqual([401, []]);

    const cookie = await enter(station);
    expect((await call(station.origin, cookie)).status).toBe(200);
    const page = await fetch(`${station.origin}/`, { headers: { cookie } });
    expect(await page.text()).toMatch(/<html data-theme="system" .*the screens/s);
  });

  it('shows a photo of the casebook to whoever was let in, to no other site, and nothing by another name', async () => {
    const station = await started();
    const address = `${station.origin}/photos/${station.photo}.jpg`;
    expect((await fetch(address)).status).toBe(403);
    const cookie = await enter(station);
    const shown = await fetch(address, { headers: { cookie } });
    expect(shown.status).toBe(200);
    expect(shown.headers.get('content-type')).toBe('image/jpeg');
    expect(shown.headers.get('x-content-type-options')).toBe('nosniff');
    expect(Buffer.from(await shown.arrayBuffer()).equals(jpeg())).toBe(true);
    const elsewhere = { cookie, 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' };
    expect((await fetch(address, { headers: elsewhere })).status).toBe(403);
    for (const name of ['0'.repeat(64), '..%2f..%2fcasebook.sqlite', `${station.photo}x`])
      expect((await fetch(`${station.origin}/photos/${name}.jpg`, { headers: { cookie } })).status).toBe(404);
  });

  it('attack 18: two stations in one browser have cookies of their own', async () => {
    const [first, second] = [await started(), await started()];
    const names = [await enter(first), await enter(second)].map((cookie) => cookie.split('=')[0]);
    expect(names).toEqual([`beadwright_session_${first.port}`, `beadwright_session_${second.port}`]);
  });
});

/** Reads server-sent events until one of this kind has come; returns its data. */
async function eventOf(response: Response, kind: string): Promise<string> {
  const reader = (response.body ?? new ReadableStream<Uint8Array<ArrayBuffer>>())
    .pipeThrough(new TextDecoderStream())
    .getReader();
  for (let text = ''; ;) {
    const found = new RegExp(`event: ${kind}\ndata: (.*)\n\n`).exec(text);
    if (found) return found[1] ?? '';
    const { done, value } = await reader.read();
    if (done) throw new Error(`no "${kind}" in ${text}`);
    text += value;
  }
}

describe('what changes', () => {
  it('is told to whoever was let in, as it is written, and to nobody else', async () => {
    const station = await started();
    expect((await fetch(`${station.origin}/changes`)).status).toBe(403);
    const cookie = await enter(station);
    const headers = { cookie };
    const elsewhere = { ...headers, 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'cors' };
    expect((await fetch(`${station.origin}/changes`, { headers: elsewhere })).status).toBe(403);
    const stream = await fetch(`${station.origin}/changes`, { headers });
    expect(stream.headers.get('content-type')).toMatch(/^text\/event-stream/);
    const heard = eventOf(stream, 'change');
    const saved = await fetch(`${station.origin}/api/shop:save-person`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: station.origin, cookie },
      body: JSON.stringify({ initials: 'RK', role: 'lead' }),
    });
    expect(saved.status).toBe(200);
    expect(JSON.parse(await heard)).toEqual({ topics: ['shop', 'access'], caseId: null, revision: null });
  });

  it('keeps no station from ending, and one browser has no more than its share of streams', async () => {
    const station = await started();
    const headers = { cookie: await enter(station) };
    const streams = [];
    for (let opened = 0; opened < 24; opened++)
      streams.push(await fetch(`${station.origin}/changes`, { headers }));
    expect(streams.every(({ status }) => status === 200)).toBe(true);
    expect((await fetch(`${station.origin}/changes`, { headers })).status).toBe(429);
    const other = { cookie: await enter(station) };
    const otherStream = await fetch(`${station.origin}/changes`, { headers: other });
    expect(otherStream.status).toBe(200);
    await streams[0]?.body?.cancel();
    await expect
      .poll(async () => {
        const again = await fetch(`${station.origin}/changes`, { headers });
        return again.status;
      })
      .toBe(200);
    await station.close();
    await expect(eventOf(otherStream, 'never')).rejects.toThrow('no "never"');
  }, 30_000);
});

describe('attack 10: asking too often', () => {
  it('holds up the browser that does it, and nobody else; a stranger’s requests hold up nobody', async () => {
    const station = await started();
    const [greedy, quiet] = [await enter(station), await enter(station)];
    expect(greedy).not.toBe(quiet);
    for (let asked = 0; asked < 1300; asked += 50)
      await Promise.all(
        Array.from({ length: 50 }, async () => {
          const reply = await fetch(`${station.origin}/nothing.js`, {
            headers: { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' },
          });
          await reply.body?.cancel();
          expect(reply.status).toBe(403);
        }),
      );
    let last = 0;
    for (let asked = 0; asked < 1300 && last !== 429; asked += 50) {
      const replies = await Promise.all(Array.from({ length: 50 }, () => call(station.origin, greedy)));
      await Promise.all(replies.map((reply) => reply.body?.cancel()));
      last = replies.at(-1)?.status ?? 0;
    }
    expect(last).toBe(429);
    expect((await call(station.origin, quiet)).status).toBe(200);
  }, 120_000);
});

describe('attack 16: ending', () => {
  it('comes within seconds though a request is half sent', async () => {
    const station = await started();
    const cookie = await enter(station);
    const socket = net.connect(station.port, '127.0.0.1');
    onTestFinished(() => void socket.destroy());
    await new Promise<void>((resolve) => socket.once('connect', () => resolve()));
    socket.on('error', () => undefined);
    socket.write(
      `POST /api/host:info HTTP/1.1\r\nHost: 127.0.0.1:${station.port}\r\nOrigin: ${station.origin}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"half`,
    );
    await new Promise((resolve) => setTimeout(resolve, 200));
    const began = performance.now();
    await station.close();
    // Without a limit of its own it would wait for the rest of the request for ever.
    expect(performance.now() - began).toBeLessThan(30_000);
  }, 60_000);
});

describe('port and token', () => {
  it('are remembered beside the casebook, for the owner only; what is not readable is made anew', () => {
    const file = path.join(temporaryFolder(), 'casebook.sqlite.station.json');
    const first = readStationSettings(file);
    expect(first.port).toBeNull();
    writeStationSettings(file, { ...first, port: 4200 });
    expect(readStationSettings(file)).toEqual({ ...first, port: 4200 });
    writeFileSync(file, '{"port":');
    expect(readStationSettings(file).token).not.toBe(first.token);
    mkdirSync(path.join(path.dirname(file), 'a folder'));
    expect(() => writeStationSettings(path.join(path.dirname(file), 'a folder'), first)).not.toThrow();
  });

  it('a taken port means the next free one', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve));
    onTestFinished(() => void taken.close());
    const address = taken.address();
    const port = address !== null && typeof address === 'object' ? address.port : 0;
    const free = await freePort(port);
    expect(free).not.toBe(port);
  });
});
