import type { CallName } from '../../src-core/contract/call-names.ts';
import type { HostApi } from '../../src-core/contract/host-api.ts';

export interface ScriptedCall {
  readonly name: CallName;
  readonly input: unknown;
}

/** A host that answers with what a test gives it, and remembers what it was asked. */
export function scriptedHost(answer: (call: ScriptedCall) => Promise<unknown> | unknown): {
  readonly host: HostApi;
  readonly asked: ScriptedCall[];
} {
  const asked: ScriptedCall[] = [];
  const host: HostApi = {
    call: async (name, input) => {
      const call = { name, input };
      asked.push(call);
      return (await answer(call)) as never;
    },
  };
  return { host, asked };
}

/** A store that lasts as long as the test. */
export function memoryStore(): Storage {
  const kept = new Map<string, string>();
  return {
    get length() {
      return kept.size;
    },
    clear: () => kept.clear(),
    getItem: (key) => kept.get(key) ?? null,
    key: (index) => [...kept.keys()][index] ?? null,
    removeItem: (key) => void kept.delete(key),
    setItem: (key, value) => void kept.set(key, value),
  };
}
