import { describe, expect, it } from 'vitest';
import type { HostApi } from '../../src-core/contract/host-api.ts';
import { filterToAddress } from '../../src-renderer/screens/casebook/case-filter.ts';
import { TagBook } from '../../src-renderer/screens/casebook/tag-book.svelte.ts';
import { programInMemory } from '../operations/program-in-memory.ts';

/** Three cases, two of them tagged, a kept view that asks for the tag, and the screens' way to them. */
async function taggedShop() {
  const { ask, pass } = await programInMemory();
  const ids: string[] = [];
  for (let n = 0; n < 3; n++) {
    pass(1);
    const { caseId } = await ask('case:open', {
      complaints: [{ observation: 'stringing', value: 'slight' }],
    });
    ids.push(caseId);
  }
  await ask('case:reassign', {
    cases: ids.slice(0, 2).map((caseId) => ({ caseId, revision: 1, addTags: ['trail'] })),
  });
  await ask('case:save-views', {
    views: [
      { name: 'The trial', filter: filterToAddress({ tag: 'trail' }) },
      { name: 'Its wet ones', filter: filterToAddress({ tag: 'trail', cause: 'wet-filament' }) },
    ],
    revision: 0,
  });
  const host: HostApi = {
    call: async (name, input) => ({ ok: true, value: await ask(name, input) }) as never,
  };
  const book = new TagBook(host);
  await book.read();
  const viewsNow = async () => (await ask('case:views', {})).views.map(({ filter }) => filter);
  return { ask, book, viewsNow };
}

describe('a tag in all its cases', () => {
  it('gets another name, in kept views as well, and the old one back', async () => {
    const { ask, book, viewsNow } = await taggedShop();
    await book.rename('trail', 'trial');
    expect(book.tags).toEqual([{ tag: 'trial', cases: 2 }]);
    expect([book.changed, book.back.length, book.isBusy]).toEqual([2, 2, false]);
    expect(await viewsNow()).toEqual(['tag=trial', 'tag=trial&cause=wet-filament']);
    expect((await ask('case:list', { search: 'trail' })).total).toBe(0);
    await book.undo();
    expect(book.tags).toEqual([{ tag: 'trail', cases: 2 }]);
    expect(await viewsNow()).toEqual(['tag=trail', 'tag=trail&cause=wet-filament']);
  });

  it('is taken off; a view that asked for nothing else goes, and comes back with an undo', async () => {
    const { book, viewsNow } = await taggedShop();
    await book.rename('trail', null);
    expect(book.tags).toEqual([]);
    expect(await viewsNow()).toEqual(['cause=wet-filament']);
    await book.undo();
    expect(book.tags).toEqual([{ tag: 'trail', cases: 2 }]);
    expect(await viewsNow()).toHaveLength(2);
  });
});
