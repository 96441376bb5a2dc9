import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { listenOptionsOf } from '../../src-main/station/listen-options.ts';
import { temporaryFolder } from '../temporary-folder.ts';
import { madeCertificate } from './made-certificate.ts';

const said = (words: string, environment: Record<string, string> = {}) =>
  listenOptionsOf(words.split(' ').filter(Boolean), environment);

describe('where the station listens', () => {
  it('on this machine alone, where nothing or the loopback address is said', () => {
    expect(said('')).toEqual({ port: null, network: null, isInviting: false });
    expect(said('--port 4100')).toMatchObject({ port: 4100, network: null });
    expect(said('', { BEADWRIGHT_PORT: '4100' })).toMatchObject({ port: 4100 });
    expect(said('--listen 127.0.0.1').network).toBeNull();
  });

  it('beyond it only by HTTPS, or after an explicit word', () => {
    expect(() => said('--listen 0.0.0.0')).toThrow(/speaks HTTPS.*--certificate.*--plain-http/s);
    expect(said('--listen 0.0.0.0 --plain-http').network).toMatchObject({
      address: '0.0.0.0',
      port: 4480,
      certificate: null,
    });
    expect(
      said('', { BEADWRIGHT_LISTEN: '10.0.0.5:8080', BEADWRIGHT_PLAIN_HTTP: '1' }).network,
    ).toMatchObject({
      address: '10.0.0.5',
      port: 8080,
    });
    const { certFile, keyFile } = madeCertificate('shop.test');
    const { network } = said(`--listen 0.0.0.0 --certificate ${certFile} --key ${keyFile}`);
    expect(network?.port).toBe(4443);
    expect(network?.names()).toContain('shop.test');
    // Of all names only what the certificate is made out for is shown.
    expect(network?.addresses(4443)).toEqual(['https://shop.test:4443']);
  });

  it('by the names that were given, and by the machine’s own', () => {
    const { network } = said('--listen 10.0.0.5 --plain-http --name Shop.LAN --name heron');
    expect(network?.names()).toEqual(['shop.lan', 'heron', '10.0.0.5']);
    expect(network?.addresses(4480)[0]).toBe('http://shop.lan:4480');
    const everywhere = said('--listen 0.0.0.0 --plain-http').network?.names() ?? [];
    expect(everywhere.length).toBeGreaterThan(0);
    expect(everywhere).not.toContain('127.0.0.1');
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
    expect(build).toContain("station: 'src-main/station/index.ts'");
  });
});
