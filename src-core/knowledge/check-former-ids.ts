import type { KnowledgeFault } from './fault.ts';
import type { PlacedLists } from './placed-lists.ts';

const NAMED = [
  'observations',
  'causes',
  'mechanisms',
  'remedies',
  'practices',
  'conditions',
  'maintenanceTasks',
] as const;

/** A former id stands for one entry only, and is none that is in use. */
export function checkFormerIds(lists: PlacedLists): KnowledgeFault[] {
  return NAMED.flatMap((name) => {
    const entries = lists[name];
    const inUse = new Set(entries.map(({ entry }) => entry.id));
    const taken = new Map<string, string>();
    return entries.flatMap(({ entry, at }): KnowledgeFault[] =>
      entry.formerly.flatMap((before, i): KnowledgeFault[] => {
        const other = inUse.has(before) ? before : taken.get(before);
        taken.set(before, entry.id);
        if (other === undefined) return [];
        const message = `"${entry.id}" was formerly "${before}", which ${inUse.has(before) ? 'is in use' : `"${other}" was as well`}`;
        return [
          { code: 'ambiguous-former-id', ...at('formerly', i), message, remedy: 'leave it with one entry' },
        ];
      }),
    );
  });
}
