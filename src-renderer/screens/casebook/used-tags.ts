import type { HostApi } from '../../../src-core/contract/host-api.ts';

/** Tags that cases bear: a help in choosing, so that none are no fault. */
export async function usedTags(host: HostApi): Promise<readonly string[]> {
  const reply = await host.call('case:tags', {});
  return reply.ok ? reply.value.tags.map(({ tag }) => tag) : [];
}
