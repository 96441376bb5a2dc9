import { inEnglish } from '../../src-core/words/in-english.ts';
import { gzipSync } from 'node:zlib';
import { describe, expect, it, onTestFinished } from 'vitest';
import { fileCallAddress, type FileCallName } from '../../src-core/contract/file-calls.ts';
import { LARGEST_PHOTO_BYTES } from '../../src-core/contract/photo-limits.ts';
import type { Role } from '../../src-core/contract/roles.ts';
import { Doorkeeper } from '../../src-main/operations/access/doorkeeper.ts';
import { openDoor } from '../../src-main/station/door.ts';
import { pieceOf } from '../../src-main/station/file-routes.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { jpeg } from '../photos/jpeg.ts';
import { temporaryFolder } from '../temporary-folder.ts';

/** A door to the network by which one device has come in. */
async function withDevice(role: Role = 'operator') {
  const test = await programInMemory();
  const doorkeeper = new Doorkeeper(test.program);
  const door = await openDoor(
    { address: '127.0.0.1', port: 0, certificate: null, names: () => ['127.0.0.1'], token: null },
    {
      rendererFolder: temporaryFolder(),
      dispatcher: test.dispatcher,
      readPage: () => Promise.resolve(''),
      readPhoto: (hash) => test.program.casebook.photos.read(hash),
      followChanges: test.program.changes.follow,
      doorkeeper: () => doorkeeper,
    },
  );
  onTestFinished(() => door.close());
  const { code } = await test.ask('access:invite', { label: 'Tablet', role });
  const joined = await doorkeeper.join(code, '127.0.0.1');
  if (!joined.ok) throw new Error(inEnglish(joined.said));
  const origin = `http://127.0.0.1:${door.port}`;
  const cookie = `beadwright_device_${door.port}=${joined.deviceId}.${joined.secret}`;
  const send = async (
    name: FileCallName,
    body: Uint8Array<ArrayBuffer>,
    {
      type = 'image/jpeg',
      input = {},
      headers = {},
    }: { type?: string; input?: unknown; headers?: Record<string, string> } = {},
  ) => {
    const reply = await fetch(`${origin}/${fileCallAddress(name, input)}`, {
      method: 'POST',
      headers: { origin, cookie, 'content-type': type, ...headers },
      body,
    });
    return {
      status: reply.status,
      answer: (await reply.json()) as {
        ok: boolean;
        value?: { photo?: string; received?: number };
        error?: { code: string; message: string };
      },
    };
  };
  const get = (asked: string, headers: Record<string, string> = {}) =>
    fetch(`${origin}${asked}`, { headers: { cookie, ...headers } });
  return { ...test, origin, send, get };
}

const bytesOf = (buffer: Buffer) => new Uint8Array(buffer);

describe('a photo that is sent', () => {
  it('goes as it is, is kept by its hash, and comes back as it was; as text it still goes as before', async () => {
    const { send, get, ask } = await withDevice();
    const sent = await send('photo:keep', bytesOf(jpeg()));
    expect(sent).toMatchObject({ status: 200, answer: { ok: true } });
    const photo = sent.answer.value?.photo ?? '';
    expect(Buffer.from(await (await get(`/photos/${photo}.jpg`)).arrayBuffer()).equals(jpeg())).toBe(true);
    expect((await ask('photo:keep', { base64: jpeg().toString('base64') })).photo).toBe(photo);
    expect((await ask('photo:keep', { bytes: bytesOf(jpeg()) })).photo).toBe(photo);
  });

  it.each([
    ['a page', Buffer.from('<!doctype html><script>alert(1)</script>'), /no JPEG/],
    [
      'a page behind the first bytes of a picture',
      Buffer.concat([jpeg().subarray(0, 20), Buffer.from('<script>')]),
      /cut short/,
    ],
    [
      'a page between a picture and its end',
      Buffer.concat([jpeg(), Buffer.from('<script>alert(1)</script>'), jpeg().subarray(-2)]),
      /lies behind/,
    ],
    ['another picture', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex'), /no JPEG/],
    ['one that unpacks to gigabytes', jpeg(65_500, 65_500), /1600 px/],
    ['one that gets its height later', jpeg(640, 0), /no size/],
    ['one that is drawn over itself thousands of times', overdrawn(5000), /too often/],
    [
      'one with a second, larger one in it',
      jpeg(640, 480, [...jpeg(65_500, 65_500).subarray(20, 33)]),
      /px wide|damaged/,
    ],
    ['a packed one', gzipSync(jpeg()), /no JPEG/],
  ])('is refused where it is %s', async (_what, bytes, fault) => {
    const { send, program } = await withDevice();
    const { answer } = await send('photo:keep', bytesOf(bytes));
    expect(answer).toMatchObject({
      ok: false,
      error: { code: 'bad-request', message: expect.stringMatching(fault) },
    });
    expect(await program.casebook.photos.hashes()).toEqual([]);
  });

  it('is not unpacked on the way, whatever it says it is packed with', async () => {
    const { send, program } = await withDevice();
    const bomb = gzipSync(Buffer.alloc(64_000_000));
    for (const encoding of ['gzip', 'br', 'deflate']) {
      const { answer } = await send('photo:keep', bytesOf(bomb), {
        headers: { 'content-encoding': encoding },
      });
      expect(answer.ok).toBe(false);
    }
    expect(await program.casebook.photos.hashes()).toEqual([]);
  });

  it('is refused by its size and type before it is read, and by the rights of the device', async () => {
    const { send } = await withDevice();
    const large = await send('photo:keep', new Uint8Array(LARGEST_PHOTO_BYTES + 1));
    expect([large.status, large.answer.error?.message]).toEqual([413, 'this is larger than is taken here']);
    for (const type of ['text/html', 'image/svg+xml', 'application/json', 'multipart/form-data; boundary=x'])
      expect([type, (await send('photo:keep', bytesOf(jpeg()), { type })).status]).toEqual([type, 415]);
    expect((await send('photo:keep', bytesOf(jpeg()), { type: 'application/octet-stream' })).status).toBe(
      415,
    );
    for (const input of ['x', [], null])
      expect((await send('photo:keep', bytesOf(jpeg()), { input })).status).toBe(400);
    expect((await send('photo:keep', bytesOf(jpeg()), { input: { base64: 'AA' } })).answer.ok).toBe(false);
    const trainer = await withDevice('trainer');
    expect((await trainer.send('photo:keep', bytesOf(jpeg()))).answer.error?.code).toBe('forbidden');
  });

  it('is one of so many that a device may send within an hour, by whichever way', async () => {
    const { send, ask, pass, program } = await withDevice();
    for (let sent = 0; sent < 240; sent++) {
      const { answer } = await send('photo:keep', bytesOf(jpeg()));
      if (!answer.ok) throw new Error(`refused after ${sent}`);
    }
    expect((await send('photo:keep', bytesOf(jpeg()))).answer.error).toMatchObject({
      code: 'refused',
      message: expect.stringMatching(/Try again later/),
    });
    // Nobody else waits for it.
    expect((await ask('photo:keep', { bytes: bytesOf(jpeg()) })).photo).not.toBe('');
    expect(program.desk.photos.take('another device', program.now().getTime())).toBe(true);
    pass(61);
    expect((await send('photo:keep', bytesOf(jpeg()))).answer.ok).toBe(true);
  });
});

describe('a photo that is looked at', () => {
  it('is kept by the browser under its hash, and given in pieces where that is asked', async () => {
    const { get, ask } = await withDevice();
    const { photo } = await ask('photo:keep', { bytes: bytesOf(jpeg()) });
    const asked = `/photos/${photo}.jpg`;
    const whole = await get(asked);
    expect(Object.fromEntries(whole.headers)).toMatchObject({
      'content-type': 'image/jpeg',
      'cache-control': 'private, max-age=31536000, immutable',
      etag: `"${photo}"`,
      'accept-ranges': 'bytes',
      'x-content-type-options': 'nosniff',
    });
    const again = await get(asked, { 'if-none-match': `"${photo}"` });
    expect([again.status, (await again.arrayBuffer()).byteLength]).toEqual([304, 0]);
    const piece = await get(asked, { range: 'bytes=2-5' });
    expect([piece.status, piece.headers.get('content-range')]).toEqual([206, `bytes 2-5/${jpeg().length}`]);
    expect(Buffer.from(await piece.arrayBuffer()).equals(jpeg().subarray(2, 6))).toBe(true);
    expect((await get(asked, { range: 'bytes=2-5', 'if-range': '"another"' })).status).toBe(200);
    const behind = await get(asked, { range: 'bytes=99999-' });
    expect([behind.status, behind.headers.get('content-range')]).toEqual([416, `bytes */${jpeg().length}`]);
    expect((await get(`/photos/${'0'.repeat(64)}.jpg`)).status).toBe(404);
    expect((await fetch((await get(asked)).url, { headers: { 'if-none-match': `"${photo}"` } })).status).toBe(
      403,
    );
  });

  it.each([
    ['bytes=0-0', { from: 0, to: 0 }],
    ['bytes=5-', { from: 5, to: 9 }],
    ['bytes=-3', { from: 7, to: 9 }],
    ['bytes=-99', { from: 0, to: 9 }],
    ['bytes=5-99', { from: 5, to: 9 }],
    ['bytes=10-', 'none'],
    ['bytes=-0', 'none'],
    ['bytes=5-2', null],
    ['bytes=0-1,3-4', null],
    ['lines=0-1', null],
    ['bytes=-', null],
    ['bytes=99999999999999999999-', null],
  ])('of ten bytes, "%s" is %o', (range, piece) => {
    expect(pieceOf(range, 10)).toEqual(piece);
  });
});

describe('a job file', () => {
  it('goes in pieces as it is', async () => {
    const { send, ask } = await withDevice();
    const { jobId } = await ask('job:begin', {});
    const type = 'application/octet-stream';
    const piece = bytesOf(Buffer.from('G28\nG1 X1 E1\n'));
    const sent = await send('job:piece', piece, { type, input: { jobId, at: 0 } });
    expect(sent.answer).toEqual({ ok: true, value: { received: piece.length } });
    const nothing = await send('job:piece', new Uint8Array(), { type, input: { jobId, at: 13 } });
    expect(nothing.answer.ok).toBe(false);
    expect((await send('job:piece', piece, { input: { jobId, at: 13 } })).status).toBe(415);
  });
});

/** A small picture that says in each of many scans how it is drawn over all of it. */
function overdrawn(scans: number): Buffer {
  const whole = jpeg(1600, 1600);
  const scan = whole.subarray(whole.length - 15, whole.length - 2);
  return Buffer.concat([
    whole.subarray(0, -2),
    ...Array.from({ length: scans }, () => scan),
    whole.subarray(-2),
  ]);
}
