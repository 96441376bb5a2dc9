import type { CaseFilterInput, CaseRow } from '../../../src-core/contract/casebook-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { ReplyError } from '../../../src-core/contract/reply.ts';

/** A page as large as the host gives it. */
const FULL_PAGE = 200;

export interface GatheredCases {
  readonly rows: readonly CaseRow[];
  /** Cases that match, gathered or not. */
  readonly total: number;
}

/** The list's rows from all its pages, at most `most`; an error when one of the pages did not come. */
export async function gatherCases(
  host: HostApi,
  filter: CaseFilterInput,
  most: number,
): Promise<GatheredCases | ReplyError> {
  // By id: a case opened between two pages moves the last row of one to the first place of the next.
  const rows = new Map<string, CaseRow>();
  for (let offset = 0; ; offset += FULL_PAGE) {
    const reply = await host.call('case:list', { ...filter, limit: FULL_PAGE, offset });
    if (!reply.ok) return reply.error;
    for (const row of reply.value.rows) rows.set(row.caseId, row);
    if (reply.value.rows.length < FULL_PAGE || rows.size >= most)
      return { rows: [...rows.values()].slice(0, most), total: reply.value.total };
  }
}
