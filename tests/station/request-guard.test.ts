import { describe, expect, it } from 'vitest';
import {
  admissionOf,
  cookieValue,
  hostOf,
  type GuardedRequest,
  type GuardSettings,
} from '../../src-main/station/request-guard.ts';

const settings: GuardSettings = {
  scheme: 'http',
  hosts: ['127.0.0.1:4100', 'localhost:4100'],
  sessionToken: 'right-token',
};
const ours: GuardedRequest = {
  method: 'POST',
  host: '127.0.0.1:4100',
  origin: 'http://127.0.0.1:4100',
  fetchSite: 'same-origin',
  fetchMode: 'cors',
  sessionCookie: cookieValue('right-token', 'client-1'),
  deviceCookie: undefined,
  isFrontDoor: false,
  isForAnybody: false,
  token: null,
};
const page: GuardedRequest = {
  ...ours,
  method: 'GET',
  origin: undefined,
  fetchSite: 'none',
  fetchMode: 'navigate',
  isFrontDoor: true,
};
const kindOf = (request: GuardedRequest) => admissionOf(request, settings).kind;

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
    ['a write with the cookie of another station', { ...ours, sessionCookie: 'other-token.client-1' }],
    ['a write with the token alone for a cookie', { ...ours, sessionCookie: 'right-token' }],
    ['a write with the token in its address', { ...ours, sessionCookie: undefined, token: 'right-token' }],
    ['a read under a foreign host', { ...page, host: 'evil.example' }],
    [
      'attack 10: what another site’s page asks for',
      { ...page, fetchSite: 'cross-site', fetchMode: 'no-cors' },
    ],
    ['what a page of another port here asks for', { ...page, fetchSite: 'same-site', fetchMode: 'no-cors' }],
    [
      'a script without the cookie',
      { ...page, isFrontDoor: false, fetchMode: 'no-cors', sessionCookie: undefined },
    ],
  ])('%s', (_what, request) => {
    expect(kindOf(request)).toBe('refused');
  });

  it.each([
    ['attack 7: a first page without the token', { ...page, sessionCookie: undefined }],
    ['a page with a wrong token', { ...page, sessionCookie: undefined, token: 'wrong' }],
  ])('%s, and says how to get in', (_what, request) => {
    expect(kindOf(request)).toBe('stranger');
  });

  it.each([
    ['our own page', ours],
    ['our own page under localhost', { ...ours, host: 'localhost:4100', origin: 'http://localhost:4100' }],
    ['a bookmark', page],
    ['a link from elsewhere to the page', { ...page, fetchSite: 'cross-site' }],
  ])('but not %s', (_what, request) => {
    expect(admissionOf(request, settings)).toEqual({ kind: 'admitted', client: 'client-1' });
  });

  it('nor the printed address', () => {
    expect(kindOf({ ...page, sessionCookie: undefined, token: 'right-token' })).toBe('entering');
  });

  it('nor, at a door of the network, a device that says which it is; but there no token counts', () => {
    const network: GuardSettings = {
      scheme: 'https',
      hosts: ['shop.lan:4443', '192.168.1.5:4443'],
      sessionToken: null,
    };
    const device = {
      ...ours,
      host: 'shop.lan:4443',
      origin: 'https://shop.lan:4443',
      sessionCookie: undefined,
      deviceCookie: cookieValue('device-1', 'secret'),
    };
    expect(admissionOf(device, network)).toEqual({ kind: 'device', deviceId: 'device-1', secret: 'secret' });
    for (const other of [
      { ...device, origin: 'http://shop.lan:4443' },
      { ...device, origin: 'https://192.168.1.6:4443' },
      { ...device, host: 'evil.example:4443', origin: 'https://evil.example:4443' },
      { ...device, host: '127.0.0.1:4443', origin: 'https://127.0.0.1:4443' },
      { ...device, deviceCookie: undefined, sessionCookie: cookieValue('right-token', 'client-1') },
      { ...device, deviceCookie: undefined, sessionCookie: cookieValue('', 'client-1') },
      { ...device, deviceCookie: 'device-1' },
    ])
      expect(admissionOf(other, network).kind).toBe('refused');
    const front = { ...page, host: 'SHOP.lan:4443', sessionCookie: undefined };
    expect(admissionOf({ ...front, token: 'right-token' }, network).kind).toBe('stranger');
    expect(admissionOf({ ...front, isFrontDoor: false, isForAnybody: true }, network).kind).toBe('anybody');
    const posted = { ...device, deviceCookie: undefined, isForAnybody: true };
    expect(admissionOf(posted, network).kind).toBe('anybody');
    expect(admissionOf({ ...posted, origin: 'https://evil.example' }, network).kind).toBe('refused');
  });
});

it('a host is written as browsers write it: without the port of its scheme, an IPv6 address in brackets', () => {
  expect(hostOf('https', 'shop.lan', 443)).toBe('shop.lan');
  expect(hostOf('http', 'shop.lan', 443)).toBe('shop.lan:443');
  expect(hostOf('http', 'fd00::5', 4480)).toBe('[fd00::5]:4480');
});
