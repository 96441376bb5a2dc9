import type { Guide } from '../../src-core/contract/guide-view.ts';

type Condition = Guide['conditions'][number];
type Topic = NonNullable<Condition['about']>;

/** What circumstances are about, in the order in which a lead asks, with the words over each. */
const TOPICS: readonly { readonly id: Topic; readonly label: string }[] = [
  { id: 'change', label: 'What changed, and when it last worked' },
  { id: 'fault', label: 'Where and when it comes' },
  { id: 'filament', label: 'More about the filament' },
  { id: 'settings', label: 'Settings of this job' },
  { id: 'machine', label: 'More about the machine' },
  { id: 'room', label: 'Room and place' },
  { id: 'use', label: 'What the part sees in use' },
];

/** Circumstances by what they are about, in the guide's order; one of which a guide says nothing is about the machine. */
export function conditionsByTopic(
  conditions: readonly Condition[],
): readonly { readonly id: Topic; readonly label: string; readonly conditions: readonly Condition[] }[] {
  return TOPICS.map(({ id, label }) => ({
    id,
    label,
    conditions: conditions.filter(({ about = 'machine' }) => about === id),
  })).filter((topic) => topic.conditions.length > 0);
}
