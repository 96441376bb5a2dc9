import type { GuideBook } from '../../host/guide-book.ts';
import { placeWords, PLACE_WORDS } from '../../wording/case-words.ts';
import { remedyMinutes } from '../../wording/minutes-words.ts';
import { familyWords, FAMILY_WORDS } from '../../wording/family-words.ts';
import { m } from '../../messages/en/guide.ts';

export const GUIDE_KINDS = [
  { id: 'cause', label: m.causes(), one: m.cause() },
  { id: 'observation', label: m.observations(), one: m.observation() },
  { id: 'remedy', label: m.remedies(), one: m.remedy() },
  { id: 'material', label: m.materials(), one: m.material() },
  { id: 'mechanism', label: m.mechanisms(), one: m.mechanism() },
  { id: 'practice', label: m.habits(), one: m.habit() },
] as const;
export type GuideKind = (typeof GUIDE_KINDS)[number]['id'];

export function isGuideKind(text: string): text is GuideKind {
  return GUIDE_KINDS.some(({ id }) => id === text);
}

/** One line of a list of the guide. */
export interface GuideLine {
  readonly kind: GuideKind;
  readonly id: string;
  readonly label: string;
  readonly summary: string;
  /** Heading it stands under. */
  readonly group: string;
  readonly alsoCalled?: readonly string[] | undefined;
}

/** All entries of one kind as lines, in the order in which they are listed. */
export function linesOf(kind: GuideKind, { guide }: GuideBook): readonly GuideLine[] {
  switch (kind) {
    case 'cause':
      return guide.causes.map((one) => ({ ...one, kind, group: familyWords(one.family) }));
    case 'observation':
      return guide.observations.map(({ id, label, ask, place, alsoCalled }) => ({
        kind,
        id,
        label,
        summary: ask,
        group: placeWords(place),
        alsoCalled,
      }));
    case 'remedy':
      return guide.remedies.map((one) => ({
        kind,
        id: one.id,
        label: one.label,
        summary: remedyMinutes(one.minutes),
        group: familyWords(one.family),
        alsoCalled: one.alsoCalled,
      }));
    case 'material':
      return guide.materials.map(({ id, label, summary, alsoCalled, kind: sort }) => ({
        kind,
        id,
        label,
        summary,
        alsoCalled,
        group: sort === 'polymer' ? m.polymers() : m.fillers(),
      }));
    case 'mechanism':
      return guide.mechanisms.map(({ id, label, physics }) => ({
        kind,
        id,
        label,
        summary: physics,
        group: '',
      }));
    case 'practice':
      return guide.practices.map(({ id, label, habit }) => ({ kind, id, label, summary: habit, group: '' }));
  }
}

const GROUP_ORDER = [...FAMILY_WORDS, ...PLACE_WORDS].map(({ label }) => label);

/** Lines under their headings, headings in the order of the trade. */
export function grouped(lines: readonly GuideLine[]): readonly (readonly [string, readonly GuideLine[]])[] {
  const order = (group: string) => {
    const at = GROUP_ORDER.indexOf(group);
    return at < 0 ? GROUP_ORDER.length : at;
  };
  return [...Map.groupBy(lines, (line) => line.group)].sort(([a], [b]) => order(a) - order(b));
}
