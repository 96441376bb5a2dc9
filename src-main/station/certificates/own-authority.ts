import { createPrivateKey, createPublicKey, X509Certificate, type KeyObject } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { BlockList, isIP } from 'node:net';
import path from 'node:path';
import { networkDoor } from '../../../src-core/words/en/network-door.ts';
import { AsnConvert } from '@peculiar/asn1-schema';
import { Certificate, id_ce_nameConstraints, NameConstraints } from '@peculiar/asn1-x509';
import { closeFolderToOthers, makePrivateIfThere, writePrivateFile } from '../../casebook/private-files.ts';
import { SaidError } from '../../../src-core/words/said-error.ts';
import { makeRoot, makeServerCertificate, type Identity } from './sign-certificate.ts';

const DAY_MS = 24 * 60 * 60_000;
/** Clocks of tablets go wrong: what is valid from now on is valid from a day ago. */
const EARLIER_MS = DAY_MS;
const ROOT_MS = 10 * 365 * DAY_MS;
/** Far below what any device takes, and renewed long before. */
const SERVER_MS = 90 * DAY_MS;
const RENEWED_BEFORE_MS = 30 * DAY_MS;

/** Ranges that belong to whoever's network it is (RFC 1918, RFC 6598, RFC 3927, RFC 4193): no other site is reached by them. */
const OWN_RANGES = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '100.64.0.0/10',
  '169.254.0.0/16',
  '127.0.0.0/8',
  'fc00::/7',
] as const;

const END_OF_CERTIFICATE = '-----END CERTIFICATE-----\n';

/** The root that devices install, as it is shown. */
export interface RootShown {
  /** What a device lists it as. */
  readonly called: string;
  /** As devices take it: DER. */
  readonly der: Buffer;
  /** SHA-256 of it, "AB:CD:…", as devices show it. */
  readonly fingerprint: string;
  readonly until: Date;
}

/** What a root is made with, the first time. */
export interface NewRoot {
  /** What devices list it as; the day is put behind it. */
  readonly called: string;
  /** Names for which it may vouch beside those of the first certificate. */
  readonly alsoFor: readonly string[];
}

export interface ServerCertificate {
  readonly cert: Buffer;
  readonly key: Buffer;
}

/** What a root may vouch for. */
interface Permitted {
  readonly names: readonly string[];
  readonly addresses: BlockList;
}

interface SigningRoot {
  readonly x509: X509Certificate;
  readonly certificate: Certificate;
  readonly key: KeyObject;
  readonly publicKey: KeyObject;
  readonly permitted: Permitted;
}

/** The certificate authority of one station is damaged; the message says what leads on. */
export class AuthorityError extends SaidError {}

/**
 * A certificate authority of the station's own, for shops that have none: a root, made once, which devices install, and a
 * certificate for this station, which is renewed by itself. In a folder for the owner only; null keeps it in memory.
 */
export class OwnAuthority {
  readonly #folder: string | null;
  readonly #now: () => Date;
  readonly #inMemory = new Map<string, string>();
  #root: RootShown | null = null;

  constructor(folder: string | null, now: () => Date) {
    this.#folder = folder;
    this.#now = now;
  }

  /**
   * The certificate for these names: the one that is there while it covers them for another month, otherwise a new one. Names
   * that the root may not vouch for are left out. The first time a root is made for the names of then. Throws `AuthorityError`.
   */
  certificateFor(names: readonly string[], forRoot: NewRoot): ServerCertificate {
    const root = this.#signingRoot(names, forRoot);
    const covered = names.filter((name) => isPermitted(name, root.permitted));
    const kept = this.#readIdentity('server');
    const usable = kept && this.#isGood(kept, root.x509, covered) ? kept : this.#issue(root, covered);
    this.#root = shownOf(root.x509);
    return { cert: Buffer.from(usable.cert), key: Buffer.from(usable.key) };
  }

  /** The root of the newest certificate, whatever has become of its file since; null before the first. */
  get root(): RootShown | null {
    return this.#root;
  }

  #signingRoot(names: readonly string[], { called, alsoFor }: NewRoot) {
    const kept = this.#readIdentity('root');
    if (kept) {
      const read = this.#readRoot(kept);
      if (Date.parse(read.x509.validTo) - this.#now().getTime() > RENEWED_BEFORE_MS) return read;
    }
    const now = this.#now().getTime();
    const until = new Date(now + ROOT_MS);
    // The day tells it from one that was made before it.
    const made = makeRoot(
      `${called} ${new Date(now).toISOString().slice(0, 10)}`,
      {
        names: [...new Set([...names, ...alsoFor])].filter((name) => !isIP(name)),
        ranges: [...OWN_RANGES, ...fixedAddresses(names)],
      },
      { from: new Date(now - EARLIER_MS), until },
    );
    this.#writeIdentity('root', made);
    return this.#readRoot(made);
  }

  #readRoot({ cert, key }: Identity): SigningRoot {
    try {
      const x509 = new X509Certificate(cert);
      const privateKey = createPrivateKey(key);
      if (!x509.checkPrivateKey(privateKey)) throw new Error('the key is of another certificate');
      const certificate = AsnConvert.parse(x509.raw, Certificate);
      return {
        x509,
        certificate,
        key: privateKey,
        publicKey: createPublicKey(privateKey),
        permitted: permittedBy(certificate),
      };
    } catch {
      throw this.#damaged();
    }
  }

  #issue(root: SigningRoot, names: readonly string[]): Identity {
    if (names.length === 0) throw new AuthorityError(networkDoor.noName());
    const now = this.#now().getTime();
    const until = new Date(Math.min(now + SERVER_MS, Date.parse(root.x509.validTo)));
    const made = makeServerCertificate(root, 'Beadwright station', names, {
      from: new Date(now - EARLIER_MS),
      until,
    });
    this.#writeIdentity('server', made);
    return made;
  }

  /** Whether a server's certificate is of this root, for all these names and for another month. */
  #isGood({ cert, key }: Identity, root: X509Certificate, names: readonly string[]): boolean {
    try {
      const x509 = new X509Certificate(cert);
      return (
        x509.verify(root.publicKey) &&
        x509.checkPrivateKey(createPrivateKey(key)) &&
        Date.parse(x509.validFrom) <= this.#now().getTime() &&
        Date.parse(x509.validTo) - this.#now().getTime() > RENEWED_BEFORE_MS &&
        names.every((name) => (isIP(name) ? x509.checkIP(name) : x509.checkHost(name)) !== undefined)
      );
    } catch {
      return false;
    }
  }

  #damaged(): AuthorityError {
    return new AuthorityError(
      networkDoor.authorityDamaged({ file: this.#fileOf('root') ?? networkDoor.itsRoot() }),
    );
  }

  #fileOf(what: 'root' | 'server'): string | null {
    return this.#folder === null ? null : path.join(this.#folder, `${what}.pem`);
  }

  /** Certificate and key lie in one file, so that one is never there without the other. */
  #readIdentity(what: 'root' | 'server'): Identity | null {
    const text = this.#read(what);
    if (text === null) return null;
    const end = text.indexOf(END_OF_CERTIFICATE) + END_OF_CERTIFICATE.length;
    return { cert: text.slice(0, end), key: text.slice(end) };
  }

  #read(what: 'root' | 'server'): string | null {
    const file = this.#fileOf(what);
    if (file === null) return this.#inMemory.get(what) ?? null;
    if (!existsSync(file)) return null;
    makePrivateIfThere(file);
    try {
      return readFileSync(file, 'utf8');
    } catch {
      // There and not to be read: nothing good, and nothing to be written over as if there were none.
      return '';
    }
  }

  #writeIdentity(what: 'root' | 'server', { cert, key }: Identity): void {
    const file = this.#fileOf(what);
    if (file === null) {
      this.#inMemory.set(what, `${cert}${key}`);
      return;
    }
    writePrivateFile(file, `${cert}${key}`);
    closeFolderToOthers(path.dirname(file));
  }
}

function shownOf(x509: X509Certificate): RootShown {
  return {
    called: /^CN=(.*)$/m.exec(x509.subject)?.[1] ?? '',
    der: x509.raw,
    fingerprint: x509.fingerprint256,
    until: new Date(x509.validTo),
  };
}

/** Where a shop's machines have addresses of the internet, as in many a laboratory, those of this one alone. */
function fixedAddresses(names: readonly string[]): string[] {
  const own = blockListOf(OWN_RANGES);
  return names.filter((name) => isIP(name) === 4 && !own.check(name)).map((address) => `${address}/32`);
}

/** As the root says itself. */
function permittedBy({ tbsCertificate }: Certificate): Permitted {
  const { extensions = [] } = tbsCertificate;
  const found = extensions.find(({ extnID }) => extnID === id_ce_nameConstraints);
  const { permittedSubtrees = [] } = found
    ? AsnConvert.parse(found.extnValue.buffer, NameConstraints)
    : { permittedSubtrees: [] };
  return {
    names: permittedSubtrees.flatMap(({ base }) => base.dNSName ?? []),
    addresses: blockListOf(permittedSubtrees.flatMap(({ base }) => base.iPAddress ?? [])),
  };
}

function blockListOf(ranges: readonly string[]): BlockList {
  const list = new BlockList();
  for (const range of ranges) {
    const [address = '', bits = ''] = range.split('/');
    list.addSubnet(address, Number(bits), isIP(address) === 6 ? 'ipv6' : 'ipv4');
  }
  return list;
}

function isPermitted(name: string, { names, addresses }: Permitted): boolean {
  const version = isIP(name);
  if (version > 0) return addresses.check(name, version === 6 ? 'ipv6' : 'ipv4');
  return names.some((one) => name === one || name.endsWith(`.${one}`));
}
