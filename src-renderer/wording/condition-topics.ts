import type { Guide } from '../../src-core/contract/guide-view.ts';
import { m } from '../messages/en/condition-topics.ts';

type Condition = Guide['conditions'][number];
type Topic = NonNullable<Condition['about']>;

/** What circumstances are about, in the order in which a lead asks, with the words over each. */
const TOPICS: readonly { readonly id: Topic; readonly label: string }[] = [
  { id: 'change', label: m.whatChangedAndWhenItLast() },
  { id: 'fault', label: m.whereAndWhenItComes() },
  { id: 'filament', label: m.moreAboutTheFilament() },
  { id: 'settings', label: m.settingsOfThisJob() },
  { id: 'machine', label: m.moreAboutTheMachine() },
  { id: 'room', label: m.roomAndPlace() },
  { id: 'use', label: m.whatThePartSeesInUse() },
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
