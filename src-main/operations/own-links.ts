import { answeredCase } from '../../src-core/learning/answered-case.ts';
import {
  linkExperience,
  ownLinksOf,
  type AnsweredCase,
  type LinkExperience,
  type OwnLink,
} from '../../src-core/learning/link-strengths.ts';
import type { Casebook } from '../casebook/casebook.ts';
import type { ConfirmedRow } from '../casebook/confirmed-case.repository.ts';
import { readLogs } from '../casebook/kept-case.repository.ts';
import type { ApplicationContext } from './application-context.ts';
import { countedUntil } from './own-experience.ts';

/** What a closed case's log answers at this revision; null where it tells nothing of links. */
interface ReadCase {
  readonly revision: number;
  readonly answered: AnsweredCase | null;
}

/** By case, under one guide: after a closing only that case's log is read, not all of them again. */
const keptAnswers = new WeakMap<
  Casebook,
  { readonly version: string; readonly byCase: ReadonlyMap<string, ReadCase> }
>();

/** What cases closed up to `until` (ISO 8601; null: all) say of how often each cause shows what was looked for. */
export async function linksUntil(
  program: ApplicationContext,
  rows: readonly ConfirmedRow[],
  until: string | null,
): Promise<readonly LinkExperience[]> {
  const answers = await answersOf(program, rows);
  return linkExperience(
    program.knowledge,
    countedUntil(rows, until).flatMap(({ caseId }) => answers.get(caseId)?.answered ?? []),
  );
}

/** Links that a case opened now goes by; undefined where own answers move none noticeably. */
export async function linksForOpening(
  program: ApplicationContext,
  rows: readonly ConfirmedRow[],
  until: string | null,
): Promise<OwnLink[] | undefined> {
  const links = ownLinksOf(await linksUntil(program, rows, until));
  return links.length > 0 ? links.slice(0, MOST_LINKS) : undefined;
}

/** As many as a case's log may hold. */
const MOST_LINKS = 1000;

async function answersOf(
  { casebook, knowledge }: ApplicationContext,
  rows: readonly ConfirmedRow[],
): Promise<ReadonlyMap<string, ReadCase>> {
  const kept = keptAnswers.get(casebook);
  const known = kept?.version === knowledge.version ? kept.byCase : new Map<string, ReadCase>();
  const byCase = new Map<string, ReadCase>();
  const unread = new Map<string, number>();
  for (const { caseId, revision, causes } of rows) {
    if (causes.length !== 1) continue;
    const read = known.get(caseId);
    if (read?.revision === revision) byCase.set(caseId, read);
    else unread.set(caseId, revision);
  }
  for await (const logs of readLogs(casebook.db, [...unread.keys()]))
    for (const [caseId, log] of logs)
      byCase.set(caseId, { revision: unread.get(caseId) ?? 0, answered: answeredCase(knowledge, log) });
  keptAnswers.set(casebook, { version: knowledge.version, byCase });
  return byCase;
}
