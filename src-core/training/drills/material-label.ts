import type { Knowledge } from '../../knowledge/knowledge.ts';

export function materialLabelOf(knowledge: Pick<Knowledge, 'materials'>, id: string): string {
  return knowledge.materials.get(id)?.label ?? id;
}
