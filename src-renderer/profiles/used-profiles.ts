import type { HostApi } from '../../src-core/contract/host-api.ts';

/** Names of print profiles that cases were made with: a help in choosing, so that none are no fault. */
export async function usedProfiles(host: HostApi): Promise<readonly string[]> {
  const reply = await host.call('case:profiles', {});
  return reply.ok ? reply.value.profiles : [];
}
