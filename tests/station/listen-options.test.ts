import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import os from 'node:os';
import { describe, expect, it, vi } from 'vitest';
import { answeringName } from '../../src-main/station/local-name.ts';
import { addressesOf, namesOf, ownLocalName } from '../../src-main/station/network-names.ts';
import { listenOptionsOf } from '../../src-main/station/listen-options.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { madeCertificate } from './made-certificate.ts';

const said = (words: string, environment: Record<string, string> = {}) =>
  listenOptionsOf(words.split(' ').filter(Boolean), environment);

describe('where the station listens', () => {
  it('on this machine alone, where the loopback address is said; where nothing is said, as the switch in the settings is', () => {
    expect(said('')).toMatchObject({ port: null, isOpenToNetwork: null, isInviting: false });
    expect(said('--port 4100')).toMatchObject({ port: 4100, isOpenToNetwork: null });
    expect(said('', { BEADWRIGHT_PORT: '4100' })).toMatchObject({ port: 4100 });
    expect(said('--listen 127.0.0.1').isOpenToNetwork).toBe(false);
  });

  it('beyond it by HTTPS, or after an explicit word without', () => {
    expect(said('--listen 0.0.0.0')).toMatchObject({
      isOpenToNetwork: true,
      network: { address: '0.0.0.0', port: 4443, rootPagePort: 4480, security: { kind: 'own-authority' } },
    });
    // What the switch would open.
    expect(said('').network).toEqual(said('--listen 0.0.0.0').network);
    expect(said('--listen 0.0.0.0 --plain-http').network).toMatchObject({
      port: 4480,
      security: { kind: 'plain-http' },
    });
    expect(
      said('', { BEADWRIGHT_LISTEN: '10.0.0.5:8080', BEADWRIGHT_PLAIN_HTTP: '1' }).network,
    ).toMatchObject({ address: '10.0.0.5', port: 8080 });
    const { certFile, keyFile, cert } = madeCertificate('shop.test');
    const { network } = said(`--listen 0.0.0.0 --certificate ${certFile} --key ${keyFile}`);
    expect(network).toMatchObject({
      port: 4443,
      security: { kind: 'given-certificate', certificate: { cert } },
    });
  });

  it.each([
    ['--listen shop', /--listen takes an address/],
    ['--listen 0.0.0.0:99999 --plain-http', /0 to 65535/],
    ['--port x', /--port takes a whole number/],
    ['--listen 0.0.0.0 --certificate only.pem', /say both/],
    ['--listen 0.0.0.0 --certificate no.pem --key no.pem', /no\.pem cannot be read/],
    ['--listen 0.0.0.0 --plain-http --name http://shop', /without port or scheme/],
    ['--lisen 0.0.0.0', /lisen/],
  ])('%s is refused in words', (words, message) => {
    expect(() => said(words)).toThrow(message);
  });

  it('under the names that were given', () => {
    expect(
      said('--name Shop.LAN --name heron', { BEADWRIGHT_NAMES: 'a.test, b.test' }).network.named,
    ).toEqual(['shop.lan', 'heron', 'a.test', 'b.test']);
  });

  it('with what is no certificate, or with both words at once, not at all', () => {
    const file = path.join(temporaryFolder(), 'cert.pem');
    writeFileSync(file, 'no certificate');
    expect(() => said(`--listen 0.0.0.0 --certificate ${file} --key ${file}`)).toThrow(
      /no certificate in PEM/,
    );
    const { certFile, keyFile } = madeCertificate('shop.test');
    expect(() => said(`--listen 0.0.0.0 --certificate ${certFile} --key ${keyFile} --plain-http`)).toThrow(
      /say one of them/,
    );
  });
});

describe('the names and addresses of a machine', () => {
  const names = (address: string, answering: string | null = null) =>
    namesOf(address, { named: ['shop.lan'], certificate: null, answering });

  it('are those that were named, then the one that the system answers to, then addresses, then its own name', () => {
    expect(names('10.0.0.5')).toEqual(['shop.lan', '10.0.0.5']);
    const everywhere = names('0.0.0.0', ownLocalName());
    expect(everywhere.slice(0, 2)).toEqual(['shop.lan', ownLocalName()]);
    expect(everywhere).toContain(os.hostname().toLowerCase());
    expect(everywhere).not.toContain('127.0.0.1');
    expect(names('0.0.0.0').at(-1)).toBe(ownLocalName());
  });

  it('are shown as far as the certificate is made out for them', () => {
    const { cert, key } = madeCertificate('shop.test');
    const given = { named: [], certificate: { cert, key }, answering: null };
    expect(addressesOf(namesOf('0.0.0.0', given), { cert, key }, 4443)).toEqual(['https://shop.test:4443']);
    expect(addressesOf(['fd00::1'], null, 80)).toEqual(['http://[fd00::1]:80']);
  });

  it('the local name counts where the system answers to it with an address of this machine, and in time', async () => {
    const asked = (found: readonly string[] | Error) =>
      answeringName({
        name: 'heron.local',
        addresses: () => ['10.0.0.5'],
        lookUp: () =>
          found instanceof Error
            ? Promise.reject(found)
            : Promise.resolve(found.map((address) => ({ address }))),
      });
    expect(await asked(['10.0.0.5'])).toBe('heron.local');
    expect(await asked(['10.0.0.77'])).toBeNull();
    expect(await asked(['127.0.1.1'])).toBeNull();
    expect(await asked(new Error('ENOTFOUND'))).toBeNull();
    vi.useFakeTimers();
    const never = answeringName({
      name: 'heron.local',
      addresses: () => [],
      lookUp: () => new Promise(() => undefined),
    });
    await vi.runAllTimersAsync();
    vi.useRealTimers();
    expect(await never).toBeNull();
  });
});

describe('what the pages for whoever runs it say', () => {
  const root = path.join(import.meta.dirname, '..', '..');
  const page = readFileSync(path.join(root, 'docs', 'station.md'), 'utf8');
  const unit = readFileSync(path.join(root, 'resources', 'station', 'beadwright-station.service'), 'utf8');

  const containers = ['Containerfile', 'compose.yaml']
    .map((file) => readFileSync(path.join(root, 'resources', 'station', file), 'utf8'))
    .join('\n');

  it('is what the station takes: every word and every variable', () => {
    const source = [
      'station/listen-options.ts',
      'station/station-log.ts',
      'bootstrap/program-files.ts',
      'bootstrap/start-application.ts',
      'casebook/postgres/database-address.ts',
    ]
      .map((file) => readFileSync(path.join(root, 'src-main', file), 'utf8'))
      .join('\n');
    const words = [...page.matchAll(/^\| `(--[a-z-]+)/gm)].map(([, word = '']) => word);
    expect(words.length).toBeGreaterThan(5);
    for (const word of words) {
      // A word that it does not know is refused as such, whatever comes after it.
      expect(() => said(`${word} --no-such-word`)).toThrow(/no-such-word|argument/);
      expect(() => said(`${word} --no-such-word`)).not.toThrow(new RegExp(`Unknown option '${word}'`));
    }
    const variables = [...`${page}${unit}${containers}`.matchAll(/BEADWRIGHT_[A-Z_]+/g)].map(
      ([variable]) => variable,
    );
    for (const variable of new Set(variables)) expect(source.includes(variable), variable).toBe(true);
  });

  it('starts what the build makes', () => {
    expect(unit).toMatch(/^ExecStart=\S+node out\/main\/station\.js$/m);
    const build = readFileSync(path.join(root, 'electron.vite.config.ts'), 'utf8');
    expect(build).toContain("station: 'src-main/station/built.ts'");
  });
});
