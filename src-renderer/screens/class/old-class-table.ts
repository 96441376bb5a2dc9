import { ulid } from 'ulid';
import type { HostApi } from '../../../src-core/contract/host-api.ts';

const STORE_KEY = 'beadwright.practice-class';

/** A result of the class table that browsers kept before the casebook had a place for them. */
interface OldResult {
  readonly seed: number;
  readonly initials: string;
  readonly points: number;
  readonly namedCause: string;
  readonly isCauseRight: boolean;
  readonly minutesSpent: number;
  readonly checks: number;
  readonly remedies: number;
  /** Given before it is sent, so that one sent twice is kept once. */
  readonly resultId?: string;
}

/** What this browser still holds, as far as it can be read. */
export function oldResults(store: Storage): readonly OldResult[] {
  try {
    const kept: unknown = JSON.parse(store.getItem(STORE_KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isOldResult) : [];
  } catch {
    return [];
  }
}

/**
 * Takes over the results of those whose initials are in the casebook, each once, and removes them here. The others stay
 * until somebody adds their initials; nothing is dropped.
 */
export async function takeOver(
  host: HostApi,
  store: Storage,
  people: readonly { readonly id: string; readonly initials: string }[],
): Promise<{ readonly taken: number; readonly left: readonly OldResult[] }> {
  let left = oldResults(store).map((one) => ({ ...one, resultId: one.resultId ?? ulid() }));
  store.setItem(STORE_KEY, JSON.stringify(left));
  let taken = 0;
  for (const old of [...left]) {
    const person = people.find(({ initials }) => initials.toUpperCase() === old.initials.toUpperCase());
    if (!person) continue;
    const reply = await host.call('training:keep', {
      personId: person.id,
      resultId: old.resultId,
      done: {
        kind: 'class-table',
        seed: old.seed,
        points: Math.round(old.points),
        named: old.namedCause,
        isCauseRight: old.isCauseRight,
        minutes: old.minutesSpent,
        checks: old.checks,
        remedies: old.remedies,
      },
    });
    if (!reply.ok && reply.error.code !== 'stale') continue;
    taken++;
    left = left.filter(({ resultId }) => resultId !== old.resultId);
    if (left.length === 0) store.removeItem(STORE_KEY);
    else store.setItem(STORE_KEY, JSON.stringify(left));
  }
  return { taken, left };
}

function isOldResult(value: unknown): value is OldResult {
  if (!value || typeof value !== 'object') return false;
  const one = value as Record<string, unknown>;
  return (
    typeof one['initials'] === 'string' &&
    typeof one['namedCause'] === 'string' &&
    typeof one['isCauseRight'] === 'boolean' &&
    ['seed', 'points', 'minutesSpent', 'checks', 'remedies'].every((key) => typeof one[key] === 'number')
  );
}
