import type { Network } from '../../src-core/contract/network-view.ts';

export const PLAIN_HTTP =
  'This is plain HTTP: whoever is on the network can read along and take over a device.';

/** What keeps others on the network from what is sent: said before the door is opened. */
export function howItIsKept(security: Network['security']): string {
  switch (security) {
    case 'own-authority':
      return 'What is sent is kept from others on the network by HTTPS. For that each device installs the station’s root certificate once; a page shows how.';
    case 'given-certificate':
      return 'What is sent is kept from others on the network by HTTPS, with the certificate that was given at the start.';
    case 'plain-http':
      return PLAIN_HTTP;
  }
}
