import type { Knowledge } from './knowledge.ts';

/** Cautions by id, as screens show them. */
export function cautionsOf(
  { cautions }: Pick<Knowledge, 'cautions'>,
  ids: readonly string[],
): { id: string; label: string; text: string }[] {
  return ids.flatMap((id) => {
    const caution = cautions.get(id);
    return caution ? [{ id, label: caution.label, text: caution.text }] : [];
  });
}
