import {
  createHash,
  generateKeyPairSync,
  randomBytes,
  sign,
  X509Certificate,
  type KeyObject,
} from 'node:crypto';
import { isIP } from 'node:net';
import { AsnConvert, OctetString } from '@peculiar/asn1-schema';
import {
  AlgorithmIdentifier,
  AttributeTypeAndValue,
  AttributeValue,
  AuthorityKeyIdentifier,
  BasicConstraints,
  Certificate,
  ExtendedKeyUsage,
  Extension,
  Extensions,
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_authorityKeyIdentifier,
  id_ce_basicConstraints,
  id_ce_extKeyUsage,
  id_ce_keyUsage,
  id_ce_nameConstraints,
  id_ce_subjectAltName,
  id_ce_subjectKeyIdentifier,
  id_kp_serverAuth,
  KeyIdentifier,
  KeyUsage,
  KeyUsageFlags,
  Name,
  NameConstraints,
  RelativeDistinguishedName,
  SubjectAlternativeName,
  SubjectKeyIdentifier,
  SubjectPublicKeyInfo,
  TBSCertificate,
  Validity,
  Version,
} from '@peculiar/asn1-x509';

/** A certificate with its key, both as PEM. */
export interface Identity {
  readonly cert: string;
  readonly key: string;
}

interface Period {
  readonly from: Date;
  readonly until: Date;
}

/** ecdsa-with-SHA256, RFC 5758 section 3.2; it has no parameters. */
const SIGNATURE = () => new AlgorithmIdentifier({ algorithm: '1.2.840.10045.4.3.2' });
const COMMON_NAME = '2.5.4.3';
const SERIAL_BYTES = 16;
const KEY_ID_BYTES = 20;

/**
 * A root (RFC 5280) that signs for these names and address ranges ("192.168.0.0/16") and for nothing else: whoever steals its key
 * cannot pass for any other site to a device that has it installed.
 */
export function makeRoot(
  called: string,
  permitted: { readonly names: readonly string[]; readonly ranges: readonly string[] },
  period: Period,
): Identity {
  const pair = newKeyPair();
  const subtrees = [
    ...permitted.names.map((name) => new GeneralName({ dNSName: name })),
    ...permitted.ranges.map((range) => new GeneralName({ iPAddress: range })),
  ].map((base) => new GeneralSubtree({ base }));
  const extensions = [
    critical(id_ce_basicConstraints, new BasicConstraints({ cA: true, pathLenConstraint: 0 })),
    critical(id_ce_keyUsage, new KeyUsage(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign)),
    critical(
      id_ce_nameConstraints,
      new NameConstraints({ permittedSubtrees: new GeneralSubtrees(subtrees) }),
    ),
    plain(id_ce_subjectKeyIdentifier, new SubjectKeyIdentifier(keyIdOf(pair.publicKey))),
  ];
  const name = nameOf(called);
  const signed = signedCertificate(pair.publicKey, extensions, {
    issuer: name,
    subject: name,
    period,
    key: pair.privateKey,
  });
  return { cert: signed, key: pemOf(pair.privateKey) };
}

/** A server's certificate for names and addresses, signed by a root. */
export function makeServerCertificate(
  root: { readonly certificate: Certificate; readonly key: KeyObject; readonly publicKey: KeyObject },
  called: string,
  names: readonly string[],
  period: Period,
): Identity {
  const pair = newKeyPair();
  const alternatives = names.map((name) =>
    isIP(name) ? new GeneralName({ iPAddress: name }) : new GeneralName({ dNSName: name }),
  );
  const extensions = [
    critical(id_ce_basicConstraints, new BasicConstraints({ cA: false })),
    critical(id_ce_keyUsage, new KeyUsage(KeyUsageFlags.digitalSignature)),
    plain(id_ce_extKeyUsage, new ExtendedKeyUsage([id_kp_serverAuth])),
    plain(id_ce_subjectAltName, new SubjectAlternativeName(alternatives)),
    plain(id_ce_subjectKeyIdentifier, new SubjectKeyIdentifier(keyIdOf(pair.publicKey))),
    plain(
      id_ce_authorityKeyIdentifier,
      new AuthorityKeyIdentifier({ keyIdentifier: new KeyIdentifier(keyIdOf(root.publicKey)) }),
    ),
  ];
  const signed = signedCertificate(pair.publicKey, extensions, {
    issuer: root.certificate.tbsCertificate.subject,
    subject: nameOf(called),
    period,
    key: root.key,
  });
  return { cert: signed, key: pemOf(pair.privateKey) };
}

function signedCertificate(
  publicKey: KeyObject,
  extensions: Extension[],
  by: { readonly issuer: Name; readonly subject: Name; readonly period: Period; readonly key: KeyObject },
): string {
  const body = new TBSCertificate({
    version: Version.v3,
    serialNumber: newSerial(),
    signature: SIGNATURE(),
    issuer: by.issuer,
    subject: by.subject,
    validity: new Validity({ notBefore: by.period.from, notAfter: by.period.until }),
    subjectPublicKeyInfo: AsnConvert.parse(derOf(publicKey), SubjectPublicKeyInfo),
    extensions: new Extensions(extensions),
  });
  const signature = sign('sha256', Buffer.from(AsnConvert.serialize(body)), by.key);
  const certificate = new Certificate({
    tbsCertificate: body,
    signatureAlgorithm: SIGNATURE(),
    signatureValue: exactly(signature),
  });
  return new X509Certificate(Buffer.from(AsnConvert.serialize(certificate))).toString();
}

function critical(extnID: string, value: unknown): Extension {
  return new Extension({ extnID, critical: true, extnValue: new OctetString(AsnConvert.serialize(value)) });
}

function plain(extnID: string, value: unknown): Extension {
  return new Extension({ extnID, critical: false, extnValue: new OctetString(AsnConvert.serialize(value)) });
}

function nameOf(called: string): Name {
  const value = new AttributeValue({ utf8String: called });
  return new Name([new RelativeDistinguishedName([new AttributeTypeAndValue({ type: COMMON_NAME, value })])]);
}

function newKeyPair(): { readonly publicKey: KeyObject; readonly privateKey: KeyObject } {
  return generateKeyPairSync('ec', { namedCurve: 'prime256v1' });
}

/** Positive, and never the same twice: the first byte is from 64 to 127. */
function newSerial(): ArrayBuffer {
  const bytes = randomBytes(SERIAL_BYTES);
  bytes[0] = 0x40 | ((bytes[0] ?? 0) & 0x3f);
  return exactly(bytes);
}

/** RFC 7093, method 1: the first 160 bits of the SHA-256 of the key. */
function keyIdOf(publicKey: KeyObject): Uint8Array {
  const { subjectPublicKey } = AsnConvert.parse(derOf(publicKey), SubjectPublicKeyInfo);
  const hash = createHash('sha256').update(new Uint8Array(subjectPublicKey)).digest();
  return new Uint8Array(exactly(hash.subarray(0, KEY_ID_BYTES)));
}

function derOf(publicKey: KeyObject): Buffer {
  return publicKey.export({ type: 'spki', format: 'der' });
}

function pemOf(key: KeyObject): string {
  return key.export({ type: 'pkcs8', format: 'pem' }).toString();
}

/** Just these bytes: a buffer may be a piece of a larger one. */
function exactly(bytes: Uint8Array): ArrayBuffer {
  return new Uint8Array(bytes).buffer;
}
