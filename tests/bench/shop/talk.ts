import http from 'node:http';
import type { CallName } from '../../../src-core/contract/call-names.ts';
import type { InputOf, OutputOf } from '../../../src-core/contract/calls.ts';
import type { Reply } from '../../../src-core/contract/reply.ts';

/** Whoever gets no answer for this long counts it as none. */
const PATIENCE_MS = 60_000;

/** How one device speaks to a station's door: over connections of its own, from an address of its own. */
export class Talk {
  readonly #port: number;
  readonly #from: string;
  readonly #agent = new http.Agent({ keepAlive: true, maxSockets: 4 });
  #cookie = '';

  /** `number` tells devices of this machine apart, as addresses of a network would. */
  constructor(port: number, number: number) {
    this.#port = port;
    this.#from = `127.0.${1 + Math.floor(number / 250)}.${1 + (number % 250)}`;
  }

  async join(code: string): Promise<void> {
    const answer = await this.#ask(
      'POST',
      '/join',
      `code=${encodeURIComponent(code)}`,
      'application/x-www-form-urlencoded',
    );
    answer.resume();
    this.#cookie = (answer.headers['set-cookie']?.[0] ?? '').split(';')[0] ?? '';
    if (!this.#cookie) throw new Error(`a tablet was not let in: ${answer.statusCode}`);
  }

  /** Throws where there is no answer, or none that is a reply. */
  async call<N extends CallName>(name: N, input: InputOf<N>): Promise<Reply<OutputOf<N>>> {
    const answer = await this.#ask('POST', `/api/${name}`, JSON.stringify(input), 'application/json');
    const pieces: Buffer[] = [];
    for await (const piece of answer) pieces.push(piece as Buffer);
    return JSON.parse(Buffer.concat(pieces).toString('utf8')) as Reply<never>;
  }

  /** The stream of changes; ends when the station does. */
  async follow(): Promise<http.IncomingMessage> {
    const answer = await this.#ask('GET', '/changes');
    if (answer.statusCode !== 200) {
      answer.resume();
      throw new Error(`no changes to follow: ${answer.statusCode}`);
    }
    return answer;
  }

  close(): void {
    this.#agent.destroy();
  }

  #ask(method: 'GET' | 'POST', path: string, body = '', type?: string): Promise<http.IncomingMessage> {
    const host = `127.0.0.1:${this.#port}`;
    return new Promise((resolve, reject) => {
      const request = http.request(
        {
          agent: this.#agent,
          host: '127.0.0.1',
          port: this.#port,
          localAddress: this.#from,
          method,
          path,
          headers: {
            host,
            ...(this.#cookie && { cookie: this.#cookie }),
            ...(method === 'POST' && {
              origin: `http://${host}`,
              'content-type': type,
              'content-length': Buffer.byteLength(body),
            }),
          },
        },
        resolve,
      );
      request.setTimeout(PATIENCE_MS, () => request.destroy(new Error('no answer')));
      request.on('error', reject);
      request.end(body);
    });
  }
}
