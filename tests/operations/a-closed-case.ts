import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import type { TestProgram } from './program-in-memory.ts';

/** How a case is closed where it does not matter as what. */
export const CLOSED: CaseEvent = {
  kind: 'closed',
  causes: [{ cause: 'wet-filament' }],
  practice: null,
  minutesLost: 1,
  gramsScrapped: 0,
  note: '',
};

/** Opens a case of strings, finds no danger and closes it as wet filament; says which it is. */
export async function aClosedCase(
  { ask }: Pick<TestProgram, 'ask'>,
  where: { readonly printerId?: string } = {},
): Promise<string> {
  const complaints = [{ observation: 'stringing', value: 'slight' }];
  const { caseId } = await ask('case:open', { complaints, ...where });
  await ask('case:send', { caseId, revision: 1, event: { kind: 'danger-answered', present: [] } });
  await ask('case:send', { caseId, revision: 2, event: CLOSED });
  return caseId;
}
