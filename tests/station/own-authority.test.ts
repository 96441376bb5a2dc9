import { execFileSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import tls from 'node:tls';
import { describe, expect, it, onTestFinished } from 'vitest';
import { AuthorityError, OwnAuthority } from '../../src-main/station/certificates/own-authority.ts';
import { makeServerCertificate } from '../../src-main/station/certificates/sign-certificate.ts';
import { AsnConvert } from '@peculiar/asn1-schema';
import { Certificate } from '@peculiar/asn1-x509';
import { createPrivateKey, createPublicKey } from 'node:crypto';
import { temporaryFolder } from '../temporary-folder.ts';

const DAY_MS = 86_400_000;
const NAMES = ['shop.test', 'heron.local', '192.168.7.20', 'fd00::20', '127.0.0.1'];

function authority(
  folder: string | null = path.join(temporaryFolder(), 'certificates'),
  startMs = Date.now(),
) {
  let nowMs = startMs;
  const own = new OwnAuthority(folder, () => new Date(nowMs));
  return {
    own,
    folder,
    passDays: (days: number) => (nowMs += days * DAY_MS),
    issue: (names: readonly string[] = NAMES) =>
      own.certificateFor(names, { called: 'Beadwright at heron', alsoFor: ['heron'] }),
  };
}

const rootPem = (folder: string | null) =>
  /-----BEGIN CERTIFICATE-----.*?-----END CERTIFICATE-----\n/s.exec(
    readFileSync(path.join(folder ?? '', 'root.pem'), 'utf8'),
  )?.[0] ?? '';

/** What a TLS client says that trusts this root and nothing else; empty where it is content. */
async function shakeHands(
  server: { readonly cert: Buffer; readonly key: Buffer },
  ca: string | Buffer,
  name: string,
): Promise<string> {
  const listening = tls.createServer({ cert: server.cert, key: server.key }).listen(0, '127.0.0.1');
  onTestFinished(() => void listening.close());
  await new Promise((resolve) => listening.once('listening', resolve));
  const { port } = listening.address() as { port: number };
  return new Promise((resolve) => {
    const client = tls.connect(
      {
        host: '127.0.0.1',
        port,
        ca,
        // An address is no server name; it is held against the certificate all the same.
        ...(/^[\d.:]+$|^fd/.test(name) ? {} : { servername: name }),
        checkServerIdentity: (_host, certificate) => tls.checkServerIdentity(name, certificate),
      },
      () => {
        client.end();
        resolve('');
      },
    );
    client.on('error', (error) => resolve(error.message));
  });
}

describe('the station’s own certificate authority', () => {
  it('vouches for the station’s names and addresses to whoever trusts its root alone, and for no other', async () => {
    const { issue, folder, own } = authority();
    const server = issue();
    const ca = rootPem(folder);
    for (const name of NAMES) expect([name, await shakeHands(server, ca, name)]).toEqual([name, '']);
    expect(await shakeHands(server, ca, 'evil.example')).toMatch(/does not match|altnames/i);
    const other = authority();
    other.issue();
    expect(await shakeHands(server, rootPem(other.folder), 'shop.test')).toMatch(
      /unable to verify|self-signed|issuer/i,
    );
    expect(new X509Certificate(ca).fingerprint256).toBe(own.root?.fingerprint);
    expect(new X509Certificate(own.root?.der ?? '').subject).toBe(`CN=${own.root?.called}`);
  });

  it('vouches for the one address of the internet that a laboratory’s machine has, and for none beside it', async () => {
    const { issue, folder } = authority();
    const server = issue(['198.51.100.7', '2001:db8::7']);
    expect(await shakeHands(server, rootPem(folder), '198.51.100.7')).toBe('');
    expect(new X509Certificate(server.cert).subjectAltName).toBe('IP Address:198.51.100.7');
    // The root is what it was: a later address of that kind is left out.
    expect(new X509Certificate(issue(['shop.test', 'heron', '198.51.100.8']).cert).subjectAltName).toBe(
      'DNS:heron',
    );
  });

  it('with its key in a thief’s hands still vouches for no other site', async () => {
    const { issue, folder } = authority();
    issue();
    const text = readFileSync(path.join(folder ?? '', 'root.pem'), 'utf8');
    const key = createPrivateKey(text.slice(text.indexOf('-----BEGIN PRIVATE')));
    const x509 = new X509Certificate(rootPem(folder));
    const root = {
      certificate: AsnConvert.parse(x509.raw, Certificate),
      key,
      publicKey: createPublicKey(key),
    };
    const period = { from: new Date(Date.now() - DAY_MS), until: new Date(Date.now() + DAY_MS) };
    const stolen = (name: string) => {
      const { cert, key: own } = makeServerCertificate(root, 'thief', [name], period);
      return { cert: Buffer.from(cert), key: Buffer.from(own) };
    };
    expect(await shakeHands(stolen('shop.test'), rootPem(folder), 'shop.test')).toBe('');
    for (const name of ['bank.example', 'other.local', '203.0.113.5'])
      expect([name, await shakeHands(stolen(name), rootPem(folder), name)]).toEqual([
        name,
        expect.stringMatching(/permitted subtree|name constraint/i),
      ]);
  });

  it('passes the checks of another program (openssl verify, X.509 strict)', () => {
    const { issue, folder } = authority();
    const { cert } = issue();
    const files = temporaryFolder();
    const [caFile, certFile] = [path.join(files, 'ca.pem'), path.join(files, 'cert.pem')];
    writeFileSync(caFile, rootPem(folder));
    writeFileSync(certFile, cert);
    const words = execFileSync('openssl', [
      ...['verify', '-x509_strict', '-purpose', 'sslserver', '-verify_hostname', 'shop.test'],
      ...['-CAfile', caFile, certFile],
    ]).toString();
    expect(words).toContain(': OK');
    const read = execFileSync('openssl', ['x509', '-in', caFile, '-noout', '-text']).toString();
    expect(read).toMatch(
      /Name Constraints: critical\s+Permitted:\s+DNS:shop\.test\s+DNS:heron\.local\s+DNS:heron\s+IP:10\.0\.0\.0/,
    );
    expect(read).toMatch(/CA:TRUE, pathlen:0/);
  });

  it('keeps its keys to the owner, and takes rights back that somebody has given', () => {
    if (process.platform === 'win32') return;
    const { issue, folder } = authority();
    issue();
    const modes = () =>
      readdirSync(folder ?? '').map((name) => statSync(path.join(folder ?? '', name)).mode & 0o777);
    expect(statSync(folder ?? '').mode & 0o777).toBe(0o700);
    expect(modes()).toEqual([0o600, 0o600]);
    chmodSync(path.join(folder ?? '', 'root.pem'), 0o644);
    issue();
    expect(modes()).toEqual([0o600, 0o600]);
  });

  it('keeps a certificate while it is good for a month, renews it before it lapses, and keeps the root', () => {
    const { issue, folder, passDays } = authority();
    const [first, root] = [issue().cert.toString(), rootPem(folder)];
    passDays(50);
    expect(issue().cert.toString()).toBe(first);
    passDays(15);
    const second = new X509Certificate(issue().cert);
    expect(second.toString()).not.toBe(first);
    expect(Date.parse(second.validTo) - Date.parse(new X509Certificate(first).validTo)).toBeGreaterThan(
      60 * DAY_MS,
    );
    expect(rootPem(folder)).toBe(root);
    // No device takes a server's certificate that is valid for much more than a year.
    expect(Date.parse(second.validTo) - Date.parse(second.validFrom)).toBeLessThan(398 * DAY_MS);
  });

  it('makes a new certificate for a new address, none for a name that its root may not vouch for, and a new root in the last month', async () => {
    const { issue, folder, passDays } = authority();
    const first = issue().cert.toString();
    const moved = issue(['shop.test', '10.1.2.3', '2001:db8::1', 'later.test']);
    expect(moved.cert.toString()).not.toBe(first);
    expect(new X509Certificate(moved.cert).subjectAltName).toBe('DNS:shop.test, IP Address:10.1.2.3');
    expect(await shakeHands(moved, rootPem(folder), '10.1.2.3')).toBe('');
    const root = rootPem(folder);
    passDays(10 * 365 - 40);
    const last = new X509Certificate(issue().cert);
    expect(rootPem(folder)).toBe(root);
    expect(last.validTo).toBe(new X509Certificate(root).validTo);
    passDays(15);
    issue();
    expect(rootPem(folder)).not.toBe(root);
  });

  it('that is damaged says so and is not written over; a damaged certificate is made anew', () => {
    const { issue, folder } = authority();
    issue();
    const [rootFile, serverFile] = ['root.pem', 'server.pem'].map((name) => path.join(folder ?? '', name));
    writeFileSync(serverFile ?? '', 'spoilt');
    expect(new X509Certificate(issue().cert).checkHost('shop.test')).toBe('shop.test');
    for (const spoilt of ['spoilt', '', rootPem(folder)]) {
      writeFileSync(rootFile ?? '', spoilt);
      expect(() => issue()).toThrow(AuthorityError);
      expect(readFileSync(rootFile ?? '', 'utf8')).toBe(spoilt);
    }
  });

  it('is kept in memory where there is no folder', () => {
    const { issue } = authority(null);
    expect(issue().cert.equals(issue().cert)).toBe(true);
  });
});
