import type { Remedy } from '../../src-core/knowledge/schema.ts';

/** A remedy of a small guide: by cause the chance to take it away. */
export function remedyOf(
  id: string,
  removes: Readonly<Record<string, number>>,
  more: Partial<Remedy> = {},
): Remedy {
  return {
    id,
    label: id,
    family: 'settings',
    formerly: [],
    alsoCalled: [],
    involves: [],
    removes: Object.entries(removes).map(([cause, chance]) => ({ cause, chance, source: 'estimate' })),
    minutes: { handsOn: 10, waiting: 0, proving: 0 },
    parts: [],
    tools: [],
    onlyWhenKnown: false,
    after: [],
    notWith: [],
    steps: [{ do: 'Do it.', cautions: [] }],
    verify: 'It is gone.',
    stopAndCall: 'It stays.',
    ...more,
  };
}
