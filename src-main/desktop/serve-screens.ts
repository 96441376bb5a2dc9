import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { photoAskedFor } from '../../src-core/contract/photo-address.ts';
import { CONTENT_SECURITY_POLICY } from '../bootstrap/content-security-policy.ts';
import { containedPath } from '../bootstrap/contained-path.ts';
import { isOurAddress } from './our-frame.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.png': 'image/png',
};

/** A document has its styles and pictures inside, and nothing else. */
const DOCUMENT_HEADERS = {
  'content-type': 'text/html; charset=utf-8',
  'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'; img-src data:",
  'x-content-type-options': 'nosniff',
};

/** Answers the app scheme: files of the built renderer, photos of the casebook and documents being printed, nothing else, with the program's policy. */
export function screenServer(
  rendererFolder: string,
  readPhoto: (hash: string) => Promise<Buffer | null> = () => Promise.resolve(null),
  readPage: () => Promise<string> = () => readFile(path.join(rendererFolder, 'index.html'), 'utf8'),
  readDocument: (pathname: string) => string | null = () => null,
): (request: { readonly url: string }) => Promise<Response> {
  return async ({ url }) => {
    if (!isOurAddress(url)) return new Response('not ours', { status: 403 });
    const asked = new URL(url).pathname;
    const printed = readDocument(asked);
    if (printed !== null) return new Response(printed, { headers: DOCUMENT_HEADERS });
    const photo = photoAskedFor(asked);
    if (photo !== null) return photoAnswer(await readPhoto(photo));
    const file = containedPath(rendererFolder, asked === '/' ? '/index.html' : asked);
    const type = file === null ? undefined : TYPES[path.extname(file)];
    if (file === null || type === undefined) return new Response('not found', { status: 404 });
    try {
      const body = asked === '/' ? await readPage() : new Uint8Array(await readFile(file));
      return new Response(body, {
        headers: {
          'content-type': type,
          'content-security-policy': CONTENT_SECURITY_POLICY,
          'x-content-type-options': 'nosniff',
        },
      });
    } catch {
      return new Response('not found', { status: 404 });
    }
  };
}

function photoAnswer(photo: Buffer | null): Response {
  if (!photo) return new Response('not found', { status: 404 });
  return new Response(new Uint8Array(photo), {
    headers: {
      'content-type': 'image/jpeg',
      'content-security-policy': CONTENT_SECURITY_POLICY,
      'x-content-type-options': 'nosniff',
    },
  });
}
