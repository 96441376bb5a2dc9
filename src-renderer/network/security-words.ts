import type { Network } from '../../src-core/contract/network-view.ts';
import { m } from '../messages/en/network.ts';

export const PLAIN_HTTP = m.thisIsPlainHttpWhoeverIs();

/** What keeps others on the network from what is sent: said before the door is opened. */
export function howItIsKept(security: Network['security']): string {
  switch (security) {
    case 'own-authority':
      return m.whatIsSentIsKeptFrom();
    case 'given-certificate':
      return m.whatIsSentIsKeptFromOthers();
    case 'plain-http':
      return PLAIN_HTTP;
  }
}
