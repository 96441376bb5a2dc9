import path from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openToNetwork } from '../../src-main/desktop/open-to-network.ts';
import { StationMemory } from '../../src-main/station/station-settings.ts';
import { programInMemory } from '../operations/program-in-memory.ts';
import { temporaryFolder } from '../temporary-folder.ts';

async function window(environment: Record<string, string>) {
  const folder = temporaryFolder();
  const test = await programInMemory({ caller: 'desktop' });
  const door = openToNetwork(test.program, folder, {
    BEADWRIGHT_CASEBOOK: path.join(folder, 'casebook.sqlite'),
    ...environment,
  });
  onTestFinished(() => door.close());
  return { ...test, door, folder };
}

it('a window is open to nobody on the network until somebody says so', async () => {
  const { door, ask, folder } = await window({});
  // What is under way has its turn first.
  await door.lookAfter();
  expect(await ask('network:read', {})).toMatchObject({ isOpen: false, isSaidAtStart: false });
  expect(new StationMemory(path.join(folder, 'casebook.sqlite.station.json')).settings.isOpenToNetwork).toBe(
    false,
  );
});

it('a window that is open to the network lets devices join, by codes that are made in it', async () => {
  const { door, ask, dispatcher } = await window({
    BEADWRIGHT_LISTEN: '127.0.0.1:0',
    BEADWRIGHT_PLAIN_HTTP: '1',
  });
  await door.open();
  const { code, addresses } = await ask('access:invite', { label: 'Tablet', role: 'operator' });
  expect(addresses).toEqual([`http://127.0.0.1:${door.port ?? 0}/join?code=${code}`]);
  const origin = `http://127.0.0.1:${door.port ?? 0}`;
  const joined = await fetch(`${origin}/join`, {
    method: 'POST',
    headers: { origin, 'content-type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams({ code }).toString(),
    redirect: 'manual',
  });
  const cookie = joined.headers.getSetCookie()[0]?.split(';')[0] ?? '';
  const call = async (name: string) => {
    const reply = await fetch(`${origin}/api/${name}`, {
      method: 'POST',
      headers: { origin, cookie, 'content-type': 'application/json' },
      body: '{}',
    });
    return (await reply.json()) as { ok: boolean; value?: unknown };
  };
  expect(await call('access:me')).toMatchObject({ ok: true, value: { kind: 'device', label: 'Tablet' } });
  expect(await call('network:read')).toMatchObject({ ok: false, error: { code: 'forbidden' } });
  expect((await ask('access:list', {})).devices).toHaveLength(1);
  // In the window itself nobody signs in.
  const signedIn = await dispatcher.dispatch('access:sign-out', {});
  expect(signedIn).toMatchObject({ ok: false, error: { code: 'forbidden' } });
});
