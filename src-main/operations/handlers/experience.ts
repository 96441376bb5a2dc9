import type { OwnExperience } from '../../../src-core/contract/own-experience-view.ts';
import { linkLimits } from '../../../src-core/learning/link-strengths.ts';
import { causeLabel, observationLabel } from '../../../src-core/session/wording.ts';
import { refusals } from '../../../src-core/words/en/refusals.ts';
import { appendUnlessOvertaken } from '../../casebook/append-unless-overtaken.ts';
import {
  readExperienceChoice,
  saveSetting,
  settingRevision,
} from '../../casebook/shop-setting.repository.ts';
import type { ApplicationContext } from '../application-context.ts';
import type { Handler } from '../dispatcher.ts';
import { DomainError } from '../domain-error.ts';
import { confirmedRows, countedUntil, experienceUntil } from '../own-experience.ts';
import { linksUntil } from '../own-links.ts';

/** The most changed; the rest say little that is new. */
const SHOWN_LINKS = 60;

export const leadExperience: Handler<'lead:experience'> = (program, { printerId }) =>
  view(program, printerId);

export const leadSaveExperience: Handler<'lead:save-experience'> = async (program, { choice, revision }) => {
  if (choice.until !== null && choice.until > program.now().toISOString())
    throw new DomainError('bad-request', refusals.countsInFuture());
  const appended = await appendUnlessOvertaken(program.casebook.db, {
    revision,
    standsAt: (db) => settingRevision(db, 'own-experience'),
    write: (db) => saveSetting(db, 'own-experience', choice),
  });
  if (appended !== 'stale') return view(program, null);
  throw new DomainError('stale', refusals.thisMovedOn(), await view(program, null));
};

async function view(program: ApplicationContext, printerId: string | null): Promise<OwnExperience> {
  const { knowledge } = program;
  const { value: choice, revision } = await readExperienceChoice(program.casebook.db);
  const rows = await confirmedRows(program);
  const counted = countedUntil(rows, choice.until);
  const named = Map.groupBy(
    counted.flatMap(({ namedByHand }) => namedByHand),
    (label) => label,
  );
  const hasCause = ({ causes }: (typeof rows)[number]) => causes.some((id) => knowledge.causes.has(id));
  // That hardly anything was seen of what hardly ever shows is no news.
  const links = (await linksUntil(program, rows, choice.until)).filter(
    ({ seen, guide, of }) => seen > 0 || guide * of >= 1,
  );
  return {
    links: links.slice(0, SHOWN_LINKS).map((one) => ({
      ...one,
      ...linkLimits(one),
      causeLabel: causeLabel(knowledge, one.cause),
      observationLabel: observationLabel(knowledge, one.observation),
    })),
    linkCount: links.length,
    choice,
    revision,
    cases: counted.filter(hasCause).length,
    closedSince: rows.length - counted.length,
    namedByHand: [...named]
      .map(([label, all]) => ({ label, cases: all.length }))
      .sort((a, b) => b.cases - a.cases),
    isDemo: rows.some(({ isDemo }) => isDemo),
    printerId,
    rows: experienceUntil(knowledge, rows, choice.until, printerId)
      .filter(({ confirmed, expected }) => confirmed > 0 || expected >= 1)
      .map((one) => ({
        ...one,
        label: causeLabel(knowledge, one.cause),
        guidePerHundred: knowledge.causes.get(one.cause)?.prior.perHundredCases ?? 0,
      })),
  };
}
