import { lookup } from 'node:dns/promises';
import { ownAddresses, ownLocalName } from './network-names.ts';

/** Where nothing answers a look-up in the local network goes on for long. */
const ANSWERS_WITHIN_MS = 1000;

interface Asking {
  readonly name: string;
  readonly addresses: () => readonly string[];
  readonly lookUp: (name: string) => Promise<readonly { readonly address: string }[]>;
}

const thisMachine: Asking = {
  name: ownLocalName(),
  addresses: ownAddresses,
  lookUp: (name) => lookup(name, { all: true }),
};

/**
 * The name under which the system itself makes this machine known on the local network (mDNS, RFC 6762), "heron.local"; null where
 * it does not, or says another machine's address. Most systems have a responder of their own that knows every network the machine
 * is in and settles who has a name when two claim it; a second one in this process would quarrel with it over port and name.
 */
export async function answeringName({ name, addresses, lookUp } = thisMachine): Promise<string | null> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<readonly never[]>((resolve) => {
    timer = setTimeout(() => resolve([]), ANSWERS_WITHIN_MS);
  });
  try {
    const found = await Promise.race([lookUp(name), late]);
    const own = addresses();
    return found.some(({ address }) => own.includes(address)) ? name : null;
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}
