import { answeredCase } from '../../src-core/learning/answered-case.ts';
import {
  linkExperience,
  ownLinksOf,
  type AnsweredCase,
  type LinkExperience,
  type OwnLink,
} from '../../src-core/learning/link-strengths.ts';
import type { ConfirmedRow } from '../casebook/confirmed-case.repository.ts';
import { readKeptCases } from '../casebook/kept-case.repository.ts';
import type { ApplicationContext } from './application-context.ts';
import { countedUntil } from './own-experience.ts';

/** What the logs of these rows answer, read once while they are the same: as long as no case is closed or opened again. */
const keptAnswers = new WeakMap<
  readonly ConfirmedRow[],
  { readonly version: string; readonly answers: ReadonlyMap<string, AnsweredCase> }
>();

/** What cases closed up to `until` (ISO 8601; null: all) say of how often each cause shows what was looked for. */
export async function linksUntil(
  program: ApplicationContext,
  rows: readonly ConfirmedRow[],
  until: string | null,
): Promise<readonly LinkExperience[]> {
  const { knowledge } = program;
  const kept = keptAnswers.get(rows);
  const answers = kept?.version === knowledge.version ? kept.answers : await readAnswers(program, rows);
  keptAnswers.set(rows, { version: knowledge.version, answers });
  return linkExperience(
    knowledge,
    countedUntil(rows, until).flatMap(({ caseId }) => answers.get(caseId) ?? []),
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

async function readAnswers(
  { casebook, knowledge }: ApplicationContext,
  rows: readonly ConfirmedRow[],
): Promise<ReadonlyMap<string, AnsweredCase>> {
  const answers = new Map<string, AnsweredCase>();
  const ids = rows.filter(({ causes }) => causes.length === 1).map(({ caseId }) => caseId);
  for await (const lot of readKeptCases(casebook.db, ids))
    for (const { name, log } of lot) {
      const answered = answeredCase(knowledge, log);
      if (answered) answers.set(name.caseId, answered);
    }
  return answers;
}
