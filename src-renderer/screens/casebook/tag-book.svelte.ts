import type { InputOf, OutputOf } from '../../../src-core/contract/calls.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';
import { filterFromAddress, filterToAddress } from './case-filter.ts';
import { MOST_TICKED } from './case-ticks.svelte.ts';

type Change = InputOf<'case:reassign'>['cases'][number];
export type UsedTag = OutputOf<'case:tags'>['tags'][number];

/** The tags that cases bear, and what is done to one of them in all its cases. */
export class TagBook {
  tags = $state.raw<readonly UsedTag[] | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  isBusy = $state(false);
  /** Cases changed by what is under way, or was done last. */
  changed = $state(0);
  /** What takes the last change back. */
  back = $state.raw<readonly Change[]>([]);

  /** Kept views as they were before it, with the revision that it made of them. */
  #viewsBefore: InputOf<'case:save-views'> | null = null;

  readonly #host: HostApi;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(): Promise<void> {
    const reply = await this.#host.call('case:tags', {});
    if (reply.ok) this.tags = reply.value.tags;
    else this.failure = reply.error;
  }

  /** Another name for a tag in all cases, or none (null); kept views that ask for it follow. Some hundred cases at a time. */
  async rename(tag: string, to: string | null): Promise<void> {
    await this.#whileBusy(async () => {
      const addTags = to === null ? [] : [to];
      for (;;) {
        const page = await this.#host.call('case:list', { tag, limit: MOST_TICKED });
        if (!page.ok) return page;
        const { rows } = page.value;
        if (rows.length === 0) break;
        const lot = await this.#change(
          rows.map(({ caseId, revision }) => ({ caseId, revision, addTags, removeTags: [tag] })),
        );
        if (!lot.ok) return lot;
        // Nothing moved: somebody else is at all of them, and would be for ever.
        if (lot.value.back.length === 0) break;
        this.back = [...this.back, ...lot.value.back];
      }
      return this.#renameInViews(tag, to);
    });
  }

  async undo(): Promise<void> {
    const { back } = this;
    const views = this.#viewsBefore;
    await this.#whileBusy(async () => {
      for (let from = 0; from < back.length; from += MOST_TICKED) {
        const lot = await this.#change(back.slice(from, from + MOST_TICKED));
        if (!lot.ok) return lot;
      }
      return views && this.#host.call('case:save-views', views);
    });
  }

  async #whileBusy(work: () => Promise<Reply<unknown> | null>): Promise<void> {
    if (this.isBusy) return;
    this.#viewsBefore = null;
    [this.isBusy, this.changed, this.back, this.failure] = [true, 0, [], null];
    const reply = await work();
    if (reply && !reply.ok) this.failure = reply.error;
    this.isBusy = false;
    await this.read();
  }

  async #change(cases: readonly Change[]): Promise<Reply<OutputOf<'case:reassign'>>> {
    const reply = await this.#host.call('case:reassign', { cases: [...cases] });
    if (reply.ok) this.changed += reply.value.back.length;
    return reply;
  }

  async #renameInViews(tag: string, to: string | null): Promise<Reply<unknown> | null> {
    const kept = await this.#host.call('case:views', {});
    if (!kept.ok) return kept;
    const { views, revision } = kept.value;
    const isAsked = (filter: string) => filterFromAddress(filter).tag === tag;
    if (!views.some(({ filter }) => isAsked(filter))) return null;
    const after = views.map((view) => {
      if (!isAsked(view.filter)) return view;
      return { ...view, filter: filterToAddress({ ...filterFromAddress(view.filter), tag: to }) };
    });
    // A view that asked for nothing else is none any more.
    const saved = await this.#host.call('case:save-views', {
      views: after.filter(({ filter }) => filter !== ''),
      revision,
    });
    if (saved.ok) this.#viewsBefore = { views, revision: saved.value.revision };
    return saved;
  }
}
