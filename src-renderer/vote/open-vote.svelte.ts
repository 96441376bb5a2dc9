import type { HostApi } from '../../src-core/contract/host-api.ts';
import type { Ballot } from '../../src-core/contract/vote-view.ts';

/** What a group session asks just now, as this device may see it: for the vote's own screen and the call to it on every other. */
class OpenVote {
  ballot = $state.raw<Ballot | null>(null);
  /** False until it was read once. */
  isRead = $state(false);
  isBusy = $state(false);
  /** What went wrong with the last vote, or with reading it. */
  failure = $state('');

  async read(host: HostApi): Promise<void> {
    const reply = await host.call('vote:look', {});
    if (reply.ok) {
      this.ballot = reply.value.ballot;
      this.isRead = true;
      this.failure = '';
    } else this.failure = reply.error.message;
  }

  /** Votes, or changes the vote. One at a time: a double tap is one vote anyway. */
  async cast(host: HostApi, choice: string): Promise<void> {
    if (this.isBusy || this.ballot === null) return;
    this.isBusy = true;
    this.failure = '';
    try {
      const reply = await host.call('vote:cast', { ballotId: this.ballot.ballotId, choice });
      if (reply.ok) this.ballot = reply.value.ballot;
      else {
        // Over, or another question by now: how it stands is shown, and why the tap did not count.
        if (reply.error.code === 'stale') await this.read(host);
        this.failure = reply.error.message;
      }
    } finally {
      this.isBusy = false;
    }
  }
}

export const openVote = new OpenVote();
