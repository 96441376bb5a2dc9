import { expect, it } from 'vitest';
import type { Network } from '../../src-core/contract/network-view.ts';
import { NetworkBook } from '../../src-renderer/network/network-book.svelte.ts';
import { howItIsKept } from '../../src-renderer/network/security-words.ts';
import { createInMemoryHost } from './in-memory-host.ts';

const closed: Network = {
  isOpen: false,
  isSaidAtStart: false,
  security: 'own-authority',
  addresses: [],
  root: null,
  problem: null,
};

it('the switch shows what the station says, a failure beside what stands, and is pressed once at a time', async () => {
  const { host, sent } = createInMemoryHost();
  const book = new NetworkBook(host);
  const reading = book.read();
  sent[0]?.reply({ ok: true, value: closed });
  await reading;
  expect(book.network).toEqual(closed);
  const switching = book.switchTo(true);
  await book.switchTo(true);
  expect(sent.map(({ name }) => name)).toEqual(['network:read', 'network:switch']);
  sent[1]?.reply({ ok: false, error: { code: 'refused', message: 'port 4443 is taken' } });
  await switching;
  expect([book.network?.isOpen, book.failure, book.isBusy]).toEqual([false, 'port 4443 is taken', false]);
  const again = book.switchTo(true);
  sent[2]?.reply({ ok: true, value: { ...closed, isOpen: true } });
  await again;
  expect([book.network?.isOpen, book.failure]).toEqual([true, '']);
});

it('is for the lead: others are told so, not that something failed', async () => {
  const { host, sent } = createInMemoryHost();
  const book = new NetworkBook(host);
  const reading = book.read();
  sent[0]?.reply({ ok: false, error: { code: 'forbidden', message: 'This is for the lead.' } });
  await reading;
  expect(book.isForOthers).toBe(true);
});

it('nobody is promised HTTPS, or a root to install, who would not get it', () => {
  expect(howItIsKept('own-authority')).toMatch(/by HTTPS.*root certificate/);
  expect(howItIsKept('given-certificate')).toMatch(/by HTTPS/);
  expect(howItIsKept('given-certificate')).not.toMatch(/root certificate/);
  expect(howItIsKept('plain-http')).toMatch(/can read along/);
  expect(howItIsKept('plain-http')).not.toMatch(/HTTPS|root certificate/);
});
