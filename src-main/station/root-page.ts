import { createServer, type ServerResponse } from 'node:http';
import type { RootShown } from './certificates/own-authority.ts';
import { escaped, PLAIN_PAGE_POLICY, PLAIN_PAGE_STYLE, plainPage } from './plain-page.ts';

const ROOT_FILE = '/beadwright-root.crt';
const STYLE = '/plain-page.css';
/** It has three short answers: whoever takes longer to ask is no device. */
const REQUEST_LIMIT_MS = 10_000;
const MOST_CONNECTIONS = 64;

export interface RootPage {
  readonly port: number;
  close(): Promise<void>;
}

interface RootPageSettings {
  readonly address: string;
  /** 0 takes any free port. */
  readonly port: number;
  readonly root: () => RootShown;
  /** Where the station itself is, by HTTPS, the best first. */
  readonly stations: () => readonly string[];
}

/**
 * Hands out the root that devices install, with what it means, over plain HTTP: a device that does not have it yet cannot come by
 * HTTPS without a warning. A server of its own, behind which there is nothing: no cookie, no call, no file of the program.
 */
export async function openRootPage({ address, port, root, stations }: RootPageSettings): Promise<RootPage> {
  const server = createServer({ requestTimeout: REQUEST_LIMIT_MS, keepAlive: false }, (request, reply) => {
    reply.on('error', () => undefined);
    if (request.method !== 'GET' && request.method !== 'HEAD')
      return answer(reply, 405, TEXT, 'only to be read\n');
    switch (request.url?.split('?')[0]) {
      case '/':
        return answer(reply, 200, 'text/html; charset=utf-8', rootPage(root(), stations()));
      case ROOT_FILE:
        return answer(reply, 200, 'application/x-x509-ca-cert', root().der);
      case STYLE:
        return answer(reply, 200, 'text/css; charset=utf-8', PLAIN_PAGE_STYLE);
      default:
        return answer(reply, 404, TEXT, 'there is nothing here but the page at /\n');
    }
  });
  server.headersTimeout = REQUEST_LIMIT_MS;
  server.maxConnections = MOST_CONNECTIONS;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: address, port }, resolve);
  });
  server.on('error', () => undefined);
  const bound = server.address();
  return {
    port: bound !== null && typeof bound !== 'string' ? bound.port : port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

const TEXT = 'text/plain; charset=utf-8';

function answer(reply: ServerResponse, status: number, type: string, body: string | Buffer): void {
  reply.writeHead(status, {
    'content-type': type,
    'content-security-policy': PLAIN_PAGE_POLICY,
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'referrer-policy': 'no-referrer',
    'cache-control': 'no-store',
    connection: 'close',
  });
  reply.end(body);
}

/** What the root means and how a device gets it, for whoever holds the device. */
export function rootPage({ called, fingerprint, until }: RootShown, stations: readonly string[]): string {
  const [first] = stations;
  const lapses = until.toISOString().slice(0, 10);
  return plainPage(`    <h2>Make this device know the station</h2>
    <p>Phones, tablets and laptops reach Beadwright by HTTPS: nobody on the network can read along or change what is sent. For that the device must know the station. The station has made a <strong>root certificate</strong> for it. Install it here once, before the device joins; otherwise the device warns of the station each time, and cannot keep Beadwright as an app.</p>
    <h3>1. Compare</h3>
    <p>This page itself comes in the clear: somebody on the network could put another one in its place. So look at the station’s own screen, under Settings, “Tablets and phones”. There stands the same row of letters and figures:</p>
    <p class="signs">${escaped(fingerprint.replaceAll(':', ' '))}</p>
    <p>If they differ, install nothing and tell the lead. The device shows the row too when you look at the certificate’s details before you install it, as “SHA-256 fingerprint”; that one counts.</p>
    <h3>2. Load it</h3>
    <p><a class="button" href="${ROOT_FILE}">Load the root certificate</a></p>
    <p>Devices list it as “${escaped(called)}”. It holds until ${lapses}.</p>
    <h3>3. Install it</h3>
    <ul>
      <li><strong>A phone or tablet that says a profile was loaded:</strong> open the device’s settings. The profile stands at the top, or under General, device management: press Install. Then go to General, About, certificate trust, and switch full trust on for it. Without this last step nothing changes.</li>
      <li><strong>A phone or tablet that puts it among its downloads:</strong> open the device’s settings and search there for “CA certificate” (mostly under Security, encryption and credentials, install a certificate). Choose CA certificate, go on past the warning, and pick the file <em>beadwright-root.crt</em>. The device may say from then on that the network could be watched: it says so of every root that somebody has added.</li>
      <li><strong>A laptop:</strong> open the file. Where there is a button “Install certificate”, choose the current user, then the store of trusted root authorities. Where a list of keys and certificates opens, add it there, open it, and set it to be always trusted.</li>
      <li><strong>A browser that has its own list:</strong> in its settings search for “certificates”, open Authorities, press Import, and trust it for websites.</li>
    </ul>
    <h3>4. Join</h3>
    ${
      first === undefined
        ? '<p>Then open the station’s address and join with a code.</p>'
        : `<p>Then open <a href="${escaped(first)}/join">${escaped(first)}/join</a> and join with a code. The lead has it made at the station, in the shop under Devices.</p>`
    }
    <h3>What it means</h3>
    <ul>
      <li>A device with this root installed believes a site that the root vouches for. Only the station holds the key that does so.</li>
      <li>The root is made so that it can vouch for the station’s names and for addresses of a shop’s own network, and for nothing else: not for a bank, not for mail, not for any site on the internet.</li>
      <li>When a device leaves the shop, take the root off again: in the same place in its settings, under the same name.</li>
    </ul>`);
}
