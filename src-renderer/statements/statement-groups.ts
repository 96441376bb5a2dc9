import type { Guide } from '../../src-core/contract/guide-view.ts';
import { m } from '../messages/en/statements.ts';

type Observation = Guide['observations'][number];
export type StatementGroup = NonNullable<Observation['group']>;

/** The groups of statements in the order in which a lead asks for them, with the words over each. */
export const STATEMENT_GROUPS: readonly { readonly id: StatementGroup; readonly label: string }[] = [
  { id: 'before', label: m.itBeganAfter() },
  { id: 'course', label: m.howItGoes() },
  { id: 'moment', label: m.whenInAJob() },
  { id: 'place', label: m.whereItShows() },
  { id: 'comparison', label: m.swappedOrCompared() },
  { id: 'better-worse', label: m.betterOrWorseWith() },
  { id: 'found', label: m.foundOnLookingOrOpeningUp() },
];

/** The statements of each group, those first that come first in `order`; what is not named there keeps the guide's order. */
export function groupsInOrder(
  observations: readonly Observation[],
  order: readonly string[],
): ReadonlyMap<StatementGroup, readonly Observation[]> {
  const place = new Map(order.map((id, at) => [id, at]));
  const grouped = observations
    .flatMap((observation) => (observation.group ? [{ group: observation.group, observation }] : []))
    .toSorted(
      (a, b) => (place.get(a.observation.id) ?? order.length) - (place.get(b.observation.id) ?? order.length),
    );
  return new Map(
    [...Map.groupBy(grouped, (one) => one.group)].map(([group, members]) => [
      group,
      members.map((one) => one.observation),
    ]),
  );
}

/** A value a statement can be given, and how it is said. */
export interface StatementValue {
  readonly value: string;
  readonly label: string;
}

const HEDGES: readonly StatementValue[] = [
  { value: 'probably', label: m.probably() },
  { value: 'sometimes', label: m.sometimes() },
];

/**
 * What can be said of an observation: yes, no, or short of certainty; its grades instead of a plain yes; of something
 * measured, its bands. "Present" says that it is there with the grade left open.
 */
export function valuesOf(observation: Observation): readonly StatementValue[] {
  const plain = ({ id, label }: { readonly id: string; readonly label: string }) => ({ value: id, label });
  if (observation.measure) return observation.measure.bands.map(plain);
  const [none, ...grades] = observation.grades ?? [];
  return [
    { value: 'present', label: m.yes() },
    { value: none?.id ?? 'absent', label: m.no() },
    ...grades.map(plain),
    ...HEDGES,
  ];
}
