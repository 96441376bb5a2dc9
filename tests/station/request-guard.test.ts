import { describe, expect, it } from 'vitest';
import { refusalOfRequest } from '../../src-main/station/request-guard.ts';

const settings = { port: 4100, sessionToken: 'right-token' };
const ours = {
  method: 'POST',
  host: '127.0.0.1:4100',
  origin: 'http://127.0.0.1:4100',
  sessionCookie: 'right-token',
};

describe('the station turns away', () => {
  it.each([
    ['another host name (DNS rebinding)', { ...ours, host: 'evil.example:4100' }],
    ['a host name that only begins like ours', { ...ours, host: '127.0.0.1:4100.evil.example' }],
    ['another port', { ...ours, host: '127.0.0.1:4101' }],
    ['no host', { ...ours, host: undefined }],
    ['a write from another origin', { ...ours, origin: 'http://evil.example' }],
    ['a write from another port of this machine', { ...ours, origin: 'http://127.0.0.1:9999' }],
    ['a write without an origin', { ...ours, origin: undefined }],
    ['a write with the null origin', { ...ours, origin: 'null' }],
    ['a write without the cookie', { ...ours, sessionCookie: undefined }],
    ['a write with the cookie of an earlier start', { ...ours, sessionCookie: 'other-token' }],
    ['a read under a foreign host', { ...ours, method: 'GET', host: 'evil.example' }],
  ])('%s', (_what, request) => {
    expect(refusalOfRequest(request, settings)).not.toBeNull();
  });

  it.each([
    ['our own page', ours],
    ['our own page under localhost', { ...ours, host: 'localhost:4100', origin: 'http://localhost:4100' }],
    [
      'a first read without origin and cookie',
      { method: 'GET', host: 'localhost:4100', origin: undefined, sessionCookie: undefined },
    ],
  ])('but not %s', (_what, request) => {
    expect(refusalOfRequest(request, settings)).toBeNull();
  });
});
