import http from 'node:http';
import https from 'node:https';
import { TLSSocket } from 'node:tls';

export interface RawReply {
  readonly status: number;
  readonly headers: http.IncomingHttpHeaders;
  readonly text: string;
  /** SHA-256 of the server's certificate, over HTTPS. */
  readonly certificate: string | null;
}

/** A request as no browser would send it: any Host, any header, to a port of this machine. */
export function rawRequest(
  port: number,
  path: string,
  options: {
    readonly method?: string;
    readonly headers?: Readonly<Record<string, string>>;
    readonly body?: string | Uint8Array;
    /** Called with the first piece of the answer, of which more may come for as long as it likes. */
    readonly onBegun?: () => void;
    /** HTTPS, trusting this certificate under this name. */
    readonly tls?: { readonly ca: Buffer; readonly servername: string };
  } = {},
): Promise<RawReply> {
  const { method = 'GET', headers = {}, body, tls, onBegun } = options;
  return new Promise((resolve, reject) => {
    const settings = { host: '127.0.0.1', port, path, method, headers, agent: false as const, ...tls };
    const request = (tls ? https : http).request(settings, (reply) => {
      let text = '';
      reply.setEncoding('utf8');
      reply.on('data', (piece: string) => (text += piece));
      if (onBegun) reply.once('data', onBegun);
      const { socket } = reply;
      const certificate = socket instanceof TLSSocket ? socket.getPeerCertificate().fingerprint256 : null;
      reply.on('end', () =>
        resolve({ status: reply.statusCode ?? 0, headers: reply.headers, text, certificate }),
      );
    });
    request.on('error', reject);
    request.end(body);
  });
}

/** "name=value" of the first cookie that a reply sets; empty where it sets none. */
export function cookieOf({ headers }: RawReply): string {
  return headers['set-cookie']?.[0]?.split(';')[0] ?? '';
}
