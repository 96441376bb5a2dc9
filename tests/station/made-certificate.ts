import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { temporaryFolder } from '../temporary-folder.ts';

/** A certificate of this test's own for a name, made by openssl, which every system with Git has. */
export function madeCertificate(name: string): {
  readonly certFile: string;
  readonly keyFile: string;
  readonly cert: Buffer;
  readonly key: Buffer;
} {
  const folder = temporaryFolder();
  const [certFile, keyFile] = [path.join(folder, 'cert.pem'), path.join(folder, 'key.pem')];
  execFileSync(
    'openssl',
    [
      ...[
        'req',
        '-x509',
        '-newkey',
        'ec',
        '-pkeyopt',
        'ec_paramgen_curve:prime256v1',
        '-nodes',
        '-days',
        '2',
      ],
      ...['-subj', `/CN=${name}`, '-addext', `subjectAltName=DNS:${name}`],
      ...['-keyout', keyFile, '-out', certFile],
    ],
    { stdio: 'ignore' },
  );
  return { certFile, keyFile, cert: readFileSync(certFile), key: readFileSync(keyFile) };
}
