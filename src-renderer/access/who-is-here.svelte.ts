import type { Me } from '../../src-core/contract/access-view.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';

/** As what this page is let in, and who is signed in on it. */
class WhoIsHere {
  /** Null until it is known, and on whatever the station does not know. */
  me = $state.raw<Me | null>(null);

  /** A tablet or another device that has joined; on the machine itself nobody signs in. */
  get device(): Me | null {
    return this.me?.kind === 'device' ? this.me : null;
  }

  async read(host: HostApi): Promise<void> {
    const reply = await host.call('access:me', {});
    if (reply.ok) this.me = reply.value;
  }

  /** What went wrong, or an empty text. */
  async signIn(host: HostApi, personId: string, pin: string): Promise<string> {
    const reply = await host.call('access:sign-in', { personId, pin });
    if (reply.ok) this.me = reply.value;
    return reply.ok ? '' : reply.error.message;
  }

  async signOut(host: HostApi): Promise<string> {
    const reply = await host.call('access:sign-out', {});
    if (reply.ok) this.me = reply.value;
    return reply.ok ? '' : reply.error.message;
  }
}

export const whoIsHere = new WhoIsHere();
